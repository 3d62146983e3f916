import { describe, expect, test } from 'vitest'
import { type Assessment, assess } from '../../../src/engine/limits/index.ts'
import type { Part } from '../../../src/engine/parts/part.ts'
import type { ConditionId } from '../../../src/engine/supply/condition.ts'
import { at, modeInWords, resolve } from '../../../src/engine/supply/evaluate.ts'
import type { ReadingKey } from '../../../src/engine/supply/reading.ts'
import type { Supply } from '../../../src/engine/supply/supply.ts'
import { atValley, r1, r1Switcher } from './r1.ts'

const judge = (supply: Supply): Assessment => {
  const result = assess(supply)
  if (!result.ok) throw new Error(result.problems.map((p) => `${p.path}: ${p.message}`).join('; '))
  return result.value
}
const read = (a: Assessment, key: ReadingKey, id: ConditionId = 'minimum-100'): number =>
  at(a.evaluation, id)!.readings[key]
const limit = (a: Assessment, id: string) => a.limits.find((l) => l.id === id)!
const within = (value: number, expected: number, relative: number) =>
  expect(Math.abs(value / expected - 1), `${value} against ${expected}`).toBeLessThan(relative)
const measured = (value: number, accuracy = 0.02) => ({
  value,
  instrument: 'LCR meter',
  frequency_Hz: 10e3,
  accuracy,
})

const plan = judge(r1())
const post_m = plan.evaluation.design.transformer.gap_m
const spacers = judge(r1({ build: { transformer: { gapPlace: 'all-legs' } } }))
const spacer_m = spacers.evaluation.design.transformer.gap_m
const inductance = (a: Assessment): number => a.evaluation.design.transformer.primaryInductance_H.typical

test('R1 as planned holds every limit', () => {
  expect(plan.limits.filter((l) => !l.holds)).toEqual([])
})

test('R1 reads as worked by hand, at a bulk that holds still at its valley', () => {
  const a = judge(atValley())
  // By hand all losses lie before the transformer, at an efficiency of 0.82 chosen beforehand; here each loss lies
  // where it arises: 3 %, and 9 % on the secondary side.
  within(read(a, 'primaryPeak_A'), 0.85, 0.03)
  within(read(a, 'primary_Arms'), 0.45, 0.04)
  within(read(a, 'duty'), 0.535, 0.02)
  within(read(a, 'secondaryPeak_A'), 6.7, 0.09)
  within(read(a, 'secondary_Arms'), 3.3, 0.09)
  within(read(a, 'reflectedVoltage_V'), 99, 0.01)
  within(read(a, 'fluxPeak_T'), 0.236, 0.05)
  within(read(a, 'drainPlateau_V', 'maximum-100'), 474, 0.01)
  within(read(a, 'rectifierReverse_V', 'maximum-100'), 60, 0.02)
  expect(modeInWords(at(a.evaluation, 'minimum-100')!)).toMatch(/^continuous, 0\.3\d* A to 0\.8\d* A/)
})

describe('gap', () => {
  test('spacer and cut that are meant to be equal give the same inductance', () => {
    within(inductance(spacers), inductance(plan), 0.01)
    // Fringing outside the legs takes part: a spacer is a little less than half.
    within(spacer_m / post_m, 0.5, 0.12)
  })
  test('full thickness in all legs: regulates light, collapses loaded', () => {
    const a = judge(r1({ build: { transformer: { gapPlace: 'all-legs', gap_m: post_m } } }))
    // By hand without fringing 0.53; fringing grows with the gap.
    within(inductance(a) / inductance(plan), 0.57, 0.08)
    expect(limit(a, 'supply.power').holds).toBe(false)
    expect(limit(a, 'supply.power').reading).toBeLessThan(0.82 * limit(plan, 'supply.power').reading)
    expect(limit(a, 'core.saturation').holds).toBe(true)
  })
  test('post cut only half as deep: saturates', () => {
    const a = judge(r1({ build: { transformer: { gap_m: post_m / 2 } } }))
    // By hand without fringing 1.8.
    within(inductance(a) / inductance(plan), 1.7, 0.08)
    expect(limit(a, 'core.saturation').holds).toBe(false)
    expect(a.givesFirst.id).toBe('core.saturation')
    within(limit(a, 'core.saturation').reading, 0.515, 0.1)
  })
  test('no gap: ten times the inductance, saturates at once', () => {
    const a = judge(r1({ build: { transformer: { gap_m: 0 } } }))
    within(inductance(a) / inductance(plan), 10, 0.1)
    expect(a.givesFirst.id).toBe('core.saturation')
    expect(limit(a, 'transformer.gap').holds).toBe(false)
  })
  test.each([
    [-20e-6, 1.16],
    [50e-6, 0.74],
  ])('spacer off by %f m: inductance times %f', (off_m, factor) => {
    const a = judge(r1({ build: { transformer: { gapPlace: 'all-legs', gap_m: spacer_m + off_m } } }))
    // By hand on a spacer of 0.128 mm; with fringing it is a third thicker, and the same error weighs less.
    within(inductance(a) / inductance(plan), factor, 0.1)
  })
  test('outer legs of 0.8 of the post: half of the cut is too much', () => {
    const legs = { ...spacers.evaluation.design.parts.core }
    const slim = {
      ...legs,
      dimensions: { ...legs.dimensions, A_m: legs.dimensions.E_m + 0.8 * legs.dimensions.F_m },
    }
    const supply = r1({ build: { transformer: { gapPlace: 'all-legs', gap_m: spacer_m } } })
    const a = judge({ ...supply, parts: supply.parts.map((p): Part => (p.id === legs.id ? slim : p)) })
    within(inductance(a) / inductance(spacers), 0.92, 0.03)
  })
  test('measured 1650 µH: about half the gap, do not power', () => {
    const a = judge(r1({ asBuilt: { primaryInductance_H: measured(1650e-6) } }))
    expect(a.givesFirst.id).toBe('core.saturation')
    expect(a.givesFirst.holds).toBe(false)
  })
  test('measured 480 µH: low-line ceiling below the 24 W asked', () => {
    const a = judge(r1({ asBuilt: { primaryInductance_H: measured(480e-6) } }))
    const power = limit(a, 'supply.power')
    expect(power.holds).toBe(false)
    // By hand L Ilim² f/2 = 26.8 W drawn, with the delay at a valley of 92 V; tolerances of chip and clock: 5 %. What of
    // it is left is a matter of what the clamp takes.
    within(power.reading / read(a, 'efficiency', 'power-corner'), 26.8, 0.05)
    expect(power.condition).toBe('power-corner')
  })
})

describe('turns', () => {
  test.each([62, 64])('%i primary turns: inductance moves 3 %, nothing gives', (primaryTurns) => {
    const a = judge(r1({ build: { transformer: { primaryTurns, gap_m: post_m } } }))
    within(Math.abs(inductance(a) / inductance(plan) - 1), 0.032, 0.05)
    expect(a.limits.filter((l) => !l.holds)).toEqual([])
  })
  test.each([
    [7, 113],
    [9, 88],
  ])('%i secondary turns: reflected voltage %f V', (secondaryTurns, reflected_V) => {
    const a = judge(r1({ build: { transformer: { secondaryTurns, gap_m: post_m } } }))
    within(read(a, 'reflectedVoltage_V'), reflected_V, 0.015)
    expect(limit(a, 'switcher.drain-voltage').reading).not.toBeCloseTo(
      limit(plan, 'switcher.drain-voltage').reading,
      0,
    )
    expect(limit(a, 'rectifier.reverse').reading).not.toBeCloseTo(limit(plan, 'rectifier.reverse').reading, 0)
  })
  test('too many primary turns cook an avalanche clamp well below full power', () => {
    const avalanche = (primaryTurns: number) =>
      judge(
        r1({
          build: {
            places: { clampAvalanche: 'avalanche-150v-600w' },
            clamp: { style: 'avalanche', voltage_V: null },
            transformer: { primaryTurns, gap_m: post_m },
          },
        }),
      )
    const right = avalanche(63)
    const many = avalanche(88)
    expect(read(many, 'clamp_W', 'minimum-50')).toBeGreaterThan(1.5 * read(right, 'clamp_W', 'minimum-50'))
    expect(limit(many, 'clamp.ratio').holds).toBe(false)
    expect(limit(many, 'clamp.loss').margin).toBeLessThan(limit(right, 'clamp.loss').margin - 0.3)
  })
})

describe('clamp', () => {
  // The hand relation knows no capacitance: rectifier and switch have none here, and there is no snubber.
  const withLeakage = (share: number, ratio: number, resistor_ohm: number | null = null) =>
    judge(
      ideally(
        atValley({
          build: { snubber: null, clamp: { voltage_V: ratio * 99.2, resistor_ohm } },
          asBuilt: { leakage_H: measured(share * 910e-6), primaryInductance_H: measured(910e-6) },
        }),
      ),
    )
  const ideally = (supply: Supply): Supply => ({
    ...supply,
    parts: supply.parts.map((part) =>
      part.kind === 'switcher'
        ? { ...part, outputCapacitance_F: 1e-13 }
        : part.kind === 'diode'
          ? { ...part, junctionCapacitance_F: 1e-13 }
          : part,
    ),
  })
  test.each([
    [0.01, 1.5, 1],
    [0.03, 1.5, 3],
    [0.05, 1.5, 4.9],
    [0.01, 2, 0.7],
    [0.03, 2, 2],
    [0.05, 2, 3.3],
  ])('leakage %f at %f times reflected burns %f W', (share, ratio, loss_W) => {
    // The peak is that of the losses found, the resistor a preferred value: 20 %; by hand two digits.
    within(read(withLeakage(share, ratio), 'clamp_W'), loss_W, 0.2)
  })
  test('twice reflected puts the drain 50 V higher', () => {
    const low = withLeakage(0.03, 1.5)
    const high = withLeakage(0.03, 2)
    within(read(high, 'drainPeak_V') - read(low, 'drainPeak_V'), 50, 0.25)
  })
  test('leakage alone would be low by two to three times', () => {
    const a = withLeakage(0.03, 1.5)
    expect(read(a, 'clamp_W') / read(a, 'leakageEnergy_W')).toBeGreaterThan(2.5)
  })
  test('a clamp below 1.3 times reflected is flagged', () => {
    const a = judge(r1({ build: { clamp: { voltage_V: 118 } } }))
    expect(limit(a, 'clamp.ratio').holds).toBe(false)
  })
  test('5 % of leakage is flagged, 2 % is not', () => {
    const flagged = (share: number) =>
      limit(judge(r1({ asBuilt: { leakage_H: measured(share * inductance(plan)) } })), 'transformer.leakage')
    expect(flagged(0.055).holds).toBe(false)
    expect(flagged(0.02).holds).toBe(true)
  })
})

describe('parts', () => {
  test('a 45 V Schottky is rejected, 100 V accepted', () => {
    const a = judge(r1({ build: { places: { rectifier: 'diode-schottky-45v-16a-dual' } } }))
    expect(limit(a, 'rectifier.reverse').holds).toBe(false)
    expect(limit(plan, 'rectifier.reverse').holds).toBe(true)
  })
  test('33 µF is flagged at 85 V and fine at 195 V', () => {
    const bulk = { bulkCapacitance_F: measured(33e-6, 0.01) }
    const wide = judge(r1({ asBuilt: bulk }))
    expect(wide.limits.filter((l) => !l.holds).map((l) => l.id)).toContain('bulk.valley')
    expect(limit(wide, 'supply.power').holds).toBe(false)
    const high = judge(
      r1({
        asBuilt: bulk,
        need: { source: { minimum_Vrms: 195 } },
        build: {
          transformer: { gap_m: post_m },
          clamp: { resistor_ohm: plan.evaluation.design.clamp.resistor_ohm },
        },
      }),
    )
    // R1 has no varistor: so small a bulk is lifted too far by a surge, at any mains.
    expect(high.limits.filter((l) => !l.holds).map((l) => l.id)).toEqual(['switcher.mains-surge'])
    // By hand 252 V with 3 ms of conduction.
    within(read(high, 'bulkMinimum_V'), 252, 0.03)
  })
  test('another chip: flux is read at its greatest limit, power at its least', () => {
    const strong = { ...r1Switcher, currentLimit_A: { minimum: 1, typical: 1.02, maximum: 1.4 } }
    const weak = { ...r1Switcher, currentLimit_A: { minimum: 0.8, typical: 1.02, maximum: 1.04 } }
    const swap = (chip: Part): Assessment => {
      const supply = r1({ build: { transformer: { gap_m: post_m } } })
      return judge({ ...supply, parts: supply.parts.map((p): Part => (p.id === chip.id ? chip : p)) })
    }
    expect(limit(swap(strong), 'core.saturation').holds).toBe(false)
    expect(limit(swap(strong), 'supply.power').holds).toBe(true)
    expect(limit(swap(weak), 'supply.power').holds).toBe(false)
    expect(limit(swap(weak), 'core.saturation').holds).toBe(true)
  })
  test.each([
    ['capacitor-y1-1nf-400v', 0.08e-3],
    ['capacitor-y1-2.2nf-400v', 0.18e-3],
    ['capacitor-y1-4.7nf-400v', 0.38e-3],
  ])('%s lets %f A through at 254 V', (yCapacitor, current_A) => {
    const a = judge(r1({ need: { source: { maximum_Vrms: 254 } }, build: { places: { yCapacitor } } }))
    // Two digits.
    within(a.evaluation.fixed.touchCurrent_Arms, current_A, 0.035)
  })
  test('a part without a Y class across the barrier is refused', () => {
    const a = judge(r1({ build: { places: { yCapacitor: 'capacitor-disc-1nf-1000v' } } }))
    expect(limit(a, 'y-capacitor.class').holds).toBe(false)
  })
  test('3.3 V with a 2.5 V reference warns of headroom', () => {
    const a = judge(
      r1({
        need: { output_V: 3.3, trimLow_V: 3.3, trimHigh_V: 3.3, output_A: 2 },
        build: { transformer: { primaryTurns: null, secondaryTurns: null }, places: { indicator: null } },
      }),
    )
    expect(limit(a, 'reference.headroom').holds).toBe(false)
  })
})

describe('another output from the same windings', () => {
  const at_V = (output_V: number) =>
    judge(
      r1({
        need: { output_V, trimLow_V: output_V, trimHigh_V: output_V, output_A: 1 },
        build: { transformer: { biasTurns: 9, gap_m: post_m } },
      }),
    )
  test('15 V: reflected 123 V, rectifier 63 V, bias rises with it', () => {
    const a = at_V(15)
    within(read(a, 'reflectedVoltage_V'), 123, 0.015)
    // By hand from 375 V: no drop in bridge and thermistor.
    within(read(a, 'rectifierReverse_V', 'maximum-100'), 63, 0.02)
    // 9 bias turns give 13.4 V at 12 V, so 16.8 V here.
    within(read(a, 'bias_V') / read(plan, 'bias_V'), 17.5 / 14, 0.01)
  })
  test('5 V: the bias will not hold', () => {
    const a = at_V(5)
    expect(limit(a, 'switcher.bias-low').holds).toBe(false)
    within(limit(a, 'switcher.bias-low').reading, 5.9, 0.1)
  })
})

describe('coil', () => {
  const margins = { insulation: 'margins', margin_m: 3e-3 } as const
  const enamel = { secondaryWire: 'wire-0.5mm-grade-1' }
  test('margins take their width twice', () => {
    const a = judge(r1({ build: { transformer: margins, places: enamel } }))
    within(plan.evaluation.fixed.windingWidth_m - a.evaluation.fixed.windingWidth_m, 6e-3, 1e-6)
  })
  test('a split primary takes leakage to 0.4 to 0.6', () => {
    const a = judge(r1({ build: { transformer: { splitPrimary: true } } }))
    const ratio = a.evaluation.fixed.leakage_H / plan.evaluation.fixed.leakage_H
    expect(ratio).toBeGreaterThan(0.25)
    expect(ratio).toBeLessThan(0.6)
  })
  test('a barrier of one tape layer between margins is flagged', () => {
    const a = judge(r1({ build: { transformer: { ...margins, tapeBarrier: 1 }, places: enamel } }))
    expect(limit(a, 'insulation.tape').holds).toBe(false)
  })
  test('a secondary on the primary pin row is flagged', () => {
    const design = resolve(r1())
    if (!design.ok) throw new Error('R1 resolves')
    const stack = design.value.transformer.stack.map((item) =>
      item.kind === 'winding' && item.winding === 'secondary' ? { ...item, startPin: 3 } : item,
    )
    const a = judge(r1({ build: { transformer: { stack } } }))
    expect(limit(a, 'insulation.pins').holds).toBe(false)
  })
  test('enamel alone across the barrier is flagged', () => {
    const a = judge(r1({ build: { places: enamel } }))
    expect(limit(a, 'insulation.wire').holds).toBe(false)
  })
})
