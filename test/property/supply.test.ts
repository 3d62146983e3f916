import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { assess, rankOf } from '../../src/engine/limits/index.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { type Evaluation, evaluate, type Running, resolve } from '../../src/engine/supply/evaluate.ts'
import { type Need, need as needSchema } from '../../src/engine/supply/need.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { partsFor, r1 } from '../reference/r1/r1.ts'

/** Seeded: the same cases at every run. */
const runs = { seed: 20240611, numRuns: 120 }

const pick = (test: (id: string) => boolean, kind: string) =>
  fc.constantFrom(
    ...starterDrawer.entries
      .filter(({ part }) => part.kind === kind && test(part.id))
      .map(({ part }) => part.id),
  )

/** Any valid need, most of them sensible, some far out. */
const anyNeed: fc.Arbitrary<Need> = fc
  .record({
    mains: fc.boolean(),
    low: fc.double({ min: 85, max: 250, noNaN: true }),
    middle: fc.double({ min: 1, max: 1.2, noNaN: true }),
    high: fc.double({ min: 1, max: 1.15, noNaN: true }),
    frequency_Hz: fc.constantFrom(50, 60),
    output_V: fc.double({ min: 1.8, max: 60, noNaN: true }),
    trim: fc.double({ min: 0, max: 0.15, noNaN: true }),
    power_W: fc.double({ min: 2, max: 150, noNaN: true }),
    ambient_C: fc.double({ min: -20, max: 70, noNaN: true }),
    cooling: fc.constantFrom('open', 'case-vented', 'case-closed', 'fan') as fc.Arbitrary<Need['cooling']>,
    insulation: fc.constantFrom('basic', 'reinforced') as fc.Arbitrary<Need['insulation']>,
    altitude_m: fc.double({ min: 0, max: 5000, noNaN: true }),
  })
  .map((c): Need => {
    const middle = Math.min(280, c.low * c.middle)
    const high = Math.min(290, middle * c.high)
    return {
      source: c.mains
        ? {
            kind: 'mains',
            minimum_Vrms: c.low,
            nominal_Vrms: middle,
            maximum_Vrms: high,
            frequency_Hz: c.frequency_Hz,
          }
        : { kind: 'dc', minimum_V: c.low * 1.3, nominal_V: middle * 1.3, maximum_V: high * 1.3 },
      output_V: c.output_V,
      trimLow_V: Math.max(1.5, c.output_V * (1 - c.trim)),
      trimHigh_V: c.output_V * (1 + c.trim),
      output_A: Math.min(40, Math.max(0.02, c.power_W / c.output_V)),
      ripple_Vpp: 0.1,
      holdUp_s: 0.01,
      ambient_C: c.ambient_C,
      cooling: c.cooling,
      feeds: 'electronics',
      insulation: c.insulation,
      pollutionDegree: 2,
      altitude_m: c.altitude_m,
    }
  })
  .filter((n) => needSchema.safeParse(n).success)

const coreIds = starterDrawer.entries.flatMap(({ part }) => (part.kind === 'core' ? [part] : []))
const formers = starterDrawer.entries.flatMap(({ part }) => (part.kind === 'former' ? [part] : []))

/** A supply of any need with parts of the starter drawer thrown together. */
const anySupply: fc.Arbitrary<Supply> = fc
  .record({
    need: anyNeed,
    core: fc.constantFrom(...coreIds.filter((c) => formers.some((f) => f.fits.includes(c.size)))),
    switcher: pick(() => true, 'switcher'),
    material: pick(() => true, 'material'),
    rectifier: pick((id) => !id.includes('standard'), 'diode'),
    bulk: pick((id) => id.includes('bulk'), 'capacitor'),
    output: pick((id) => id.includes('lowesr'), 'capacitor'),
    optocoupler: pick(() => true, 'optocoupler'),
    reference: pick(() => true, 'reference'),
    choke: fc.boolean(),
    avalanche: fc.boolean(),
    margins: fc.boolean(),
    splitPrimary: fc.boolean(),
    spacer: fc.boolean(),
  })
  .map((c) => {
    const base = r1()
    const former = formers.find((f) => f.fits.includes(c.core.size))!
    const places = {
      ...base.build.places,
      core: c.core.id,
      former: former.id,
      switcher: c.switcher,
      material: c.material,
      rectifier: c.rectifier,
      bulkCapacitor: c.bulk,
      outputCapacitor: c.output,
      optocoupler: c.optocoupler,
      reference: c.reference,
      clampAvalanche: c.avalanche ? 'avalanche-180v-600w' : null,
      choke: c.choke ? 'toroid-20.32mm-iron-75' : null,
      chokeWire: c.choke ? 'wire-1mm-grade-1' : null,
      secondCapacitor: c.choke ? c.output : null,
      xCapacitor: 'capacitor-x2-100nf-275v',
      yCapacitor: 'capacitor-y1-2.2nf-400v',
      trimmer: c.need.trimLow_V < c.need.trimHigh_V ? 'trimmer-500' : null,
    }
    return {
      ...base,
      need: c.need,
      parts: partsFor(places),
      bench: { ...base.bench, asBuilt: { ...base.bench.asBuilt, bulkCapacitance_F: null } },
      build: {
        ...base.build,
        places,
        clamp: {
          style: c.avalanche ? ('avalanche' as const) : ('resistor-capacitor' as const),
          voltage_V: null,
          resistor_ohm: null,
          capacitor_F: null,
        },
        transformer: {
          ...base.build.transformer,
          primaryTurns: null,
          secondaryTurns: null,
          rippleRatio: null,
          biasVoltage_V: null,
          insulation: c.margins ? ('margins' as const) : ('triple-insulated' as const),
          splitPrimary: c.splitPrimary,
          gapPlace: c.spacer ? ('all-legs' as const) : ('post' as const),
        },
      },
    }
  })

const running = (e: Evaluation): Running[] => e.conditions.filter((c): c is Running => c.runs)
const evaluated = (supply: Supply): Evaluation | null => {
  const design = resolve(supply)
  return design.ok ? evaluate(design.value) : null
}
const get = (e: Evaluation, id: string): Running => running(e).find((c) => c.condition.id === id)!

describe('any supply', () => {
  test('is read with finite numbers everywhere, or refused with a path and a sentence', () => {
    let read = 0
    fc.assert(
      fc.property(anySupply, (supply) => {
        const result = assess(supply)
        if (!result.ok) {
          expect(result.problems.length).toBeGreaterThan(0)
          for (const p of result.problems) {
            expect(p.path).toMatch(/^build\./)
            expect(p.message.length).toBeGreaterThan(15)
          }
          return
        }
        read++
        const { evaluation, limits } = result.value
        for (const c of running(evaluation))
          for (const [key, value] of Object.entries(c.readings))
            expect(Number.isFinite(value), `${key} at ${c.condition.id} is ${value}`).toBe(true)
        for (const [key, value] of Object.entries(evaluation.fixed))
          expect(Number.isFinite(value), `${key} is ${value}`).toBe(true)
        for (const l of limits) {
          expect(Number.isFinite(l.margin), `${l.id} margin`).toBe(true)
          expect(Number.isFinite(l.reading), `${l.id} reading`).toBe(true)
          expect(Number.isFinite(l.rating), `${l.id} rating`).toBe(true)
        }
        for (let i = 1; i < limits.length; i++)
          expect(rankOf(limits[i]!)).toBeGreaterThanOrEqual(rankOf(limits[i - 1]!))
      }),
      { ...runs, numRuns: 400 },
    )
    expect(read).toBeGreaterThan(150)
  })

  test('takes in what it gives out and loses, and draws it from the bulk', () => {
    fc.assert(
      fc.property(anySupply, (supply) => {
        const e = evaluated(supply)
        if (!e) return
        for (const { condition, readings: r } of running(e)) {
          if (condition.kind === 'short') continue
          const parts =
            r.switch_W +
            r.transformer_W +
            r.clamp_W +
            r.clampDiode_W +
            r.rectifier_W +
            r.snubber_W +
            r.outputCapacitor_W +
            r.choke_W +
            r.biasDiode_W +
            r.feedback_W +
            r.indicator_W +
            r.bridge_W +
            r.ntc_W +
            r.fuse_W +
            r.bleed_W +
            r.bulkCapacitor_W
          // The second capacitor's share is the only loss without a reading of its own.
          expect(r.loss_W - parts).toBeGreaterThanOrEqual(-1e-9)
          expect(r.loss_W - parts).toBeLessThan(1e-3 * r.input_W + 1e-3)
          expect(r.input_W).toBeCloseTo(r.output_W + r.loss_W, 9)
          // What the stage draws is what it passes on and burns: found by iteration to 1e-5.
          const before = r.bridge_W + r.ntc_W + r.fuse_W + r.bleed_W
          const stage_W = r.primaryAverage_A * r.bulkMean_V
          expect(stage_W / (r.input_W - before)).toBeGreaterThan(0.9)
          expect(stage_W / (r.input_W - before)).toBeLessThan(1.0001)
        }
      }),
      runs,
    )
  })

  test('balances volt-seconds on the primary', () => {
    fc.assert(
      fc.property(anySupply, (supply) => {
        const e = evaluated(supply)
        if (!e) return
        for (const { condition, readings: r, mode } of running(e)) {
          if (condition.kind === 'short') continue
          if (mode === 'continuous') expect(r.duty + r.secondaryDuty).toBeCloseTo(1, 9)
          else expect(r.duty + r.secondaryDuty).toBeLessThanOrEqual(1 + 1e-9)
          const rise = r.primaryInductance_H * (r.primaryPeak_A - r.primaryValley_A)
          const fall = (r.reflectedVoltage_V * r.secondaryDuty * r.onTime_s) / r.duty
          expect(Math.abs(rise / fall - 1)).toBeLessThan(1e-6)
        }
      }),
      runs,
    )
  })

  test('is judged the same twice', () => {
    fc.assert(
      fc.property(anySupply, (supply) => {
        const a = assess(supply)
        const b = assess(structuredClone(supply))
        expect(a.ok).toBe(b.ok)
        if (!a.ok || !b.ok) return
        expect(a.value.limits).toEqual(b.value.limits)
        expect(a.value.evaluation.fixed).toEqual(b.value.evaluation.fixed)
        expect(a.value.evaluation.conditions).toEqual(b.value.evaluation.conditions)
      }),
      { ...runs, numRuns: 30 },
    )
  })
})

describe('trends of R1', () => {
  const inductance = (s: Supply): number => {
    const d = resolve(s)
    if (!d.ok) throw new Error(d.problems[0]!.message)
    return d.value.transformer.primaryInductance_H.typical
  }
  const gap = fc.double({ min: 0.05e-3, max: 1.5e-3, noNaN: true })
  test('more gap, less inductance', () => {
    fc.assert(
      fc.property(gap, gap, fc.constantFrom('post', 'all-legs'), (a, b, gapPlace) => {
        fc.pre(Math.abs(a - b) > 1e-6)
        const of = (gap_m: number) => inductance(r1({ build: { transformer: { gap_m, gapPlace } } }))
        expect(of(Math.max(a, b))).toBeLessThan(of(Math.min(a, b)))
      }),
      runs,
    )
  })
  test('more primary turns at the same secondary, more reflected voltage and drain voltage, less on the rectifier', () => {
    fc.assert(
      fc.property(fc.integer({ min: 45, max: 85 }), (primaryTurns) => {
        const of = (turns: number) =>
          get(
            evaluated(r1({ build: { transformer: { primaryTurns: turns, gap_m: 0.3e-3 } } }))!,
            'maximum-100',
          ).readings
        const a = of(primaryTurns)
        const b = of(primaryTurns + 1)
        expect(b.reflectedVoltage_V).toBeGreaterThan(a.reflectedVoltage_V)
        expect(b.drainPlateau_V).toBeGreaterThan(a.drainPlateau_V)
        expect(b.rectifierReverse_V).toBeLessThan(a.rectifierReverse_V)
      }),
      { ...runs, numRuns: 40 },
    )
  })
  test('more leakage, hotter clamp and higher drain', () => {
    fc.assert(
      fc.property(fc.double({ min: 2e-6, max: 30e-6, noNaN: true }), (leakage_H) => {
        const of = (value: number) =>
          get(
            evaluated(
              r1({
                build: { clamp: { resistor_ohm: 10e3 } },
                asBuilt: { leakage_H: { value, instrument: 'm', frequency_Hz: 1e5, accuracy: 0.02 } },
              }),
            )!,
            'minimum-100',
          ).readings
        const a = of(leakage_H)
        const b = of(leakage_H * 1.2)
        expect(b.clamp_W).toBeGreaterThan(a.clamp_W)
        expect(b.drainPeak_V).toBeGreaterThan(a.drainPeak_V)
        expect(b.efficiency).toBeLessThan(a.efficiency)
      }),
      { ...runs, numRuns: 40 },
    )
  })
  test('more load, more input power, peak current and heat', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.4, max: 2, noNaN: true }), (output_A) => {
        const of = (amps: number) =>
          get(
            evaluated(
              r1({
                need: { output_A: amps },
                build: { transformer: { gap_m: 0.33e-3 }, clamp: { resistor_ohm: 10e3 } },
              }),
            )!,
            'minimum-100',
          ).readings
        const a = of(output_A)
        const b = of(output_A * 1.05)
        expect(b.input_W).toBeGreaterThan(a.input_W)
        expect(b.primaryPeak_A).toBeGreaterThan(a.primaryPeak_A)
        expect(b.switchJunction_C).toBeGreaterThan(a.switchJunction_C)
      }),
      { ...runs, numRuns: 40 },
    )
  })
})

describe('each change of the need changes the answer', () => {
  const base = assess(r1())
  test.each([
    ['output_V', { output_V: 12.5, trimHigh_V: 12.5 }],
    ['output_A', { output_A: 1.9 }],
    ['ripple_Vpp', { ripple_Vpp: 0.25 }],
    ['holdUp_s', { holdUp_s: 0.02 }],
    ['ambient_C', { ambient_C: 40 }],
    ['feeds', { feeds: 'charging' as const }],
    ['cooling', { cooling: 'case-closed' as const }],
    ['insulation', { insulation: 'basic' as const }],
    ['pollutionDegree', { pollutionDegree: 3 as const }],
    ['altitude_m', { altitude_m: 4500 }],
    ['trim', { trimLow_V: 11, trimHigh_V: 13 }],
    ['lowest input', { source: { minimum_Vrms: 100 } }],
    ['nominal input', { source: { nominal_Vrms: 240 } }],
    ['highest input', { source: { maximum_Vrms: 253 } }],
    ['frequency', { source: { frequency_Hz: 60 } }],
  ])('%s', (_name, change) => {
    const changed = assess(r1({ need: change }))
    if (!base.ok || !changed.ok) throw new Error('R1 is assessed')
    const figures = (a: typeof base) => a.ok && a.value.limits.map((l) => [l.id, l.reading, l.rating])
    expect(figures(changed)).not.toEqual(figures(base))
  })
})
