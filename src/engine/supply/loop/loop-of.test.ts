import { describe, expect, it } from 'vitest'
import { r1 } from '../../../../test/reference/r1/r1.ts'
import { demoSupplies } from '../../demo/index.ts'
import { loopLimits } from '../../limits/rules/loop.ts'
import { starterDrawer } from '../../parts/starter/index.ts'
import { seriesNearest } from '../../quantity/index.ts'
import { evaluate, resolve } from '../evaluate.ts'
import type { Supply } from '../supply.ts'
import {
  bandOf,
  biasOf,
  curveOf,
  frequenciesBetween,
  loopAt,
  loopOf,
  rippleOf,
  suggestFor,
  trimOf,
} from './index.ts'

const read = (supply: Supply) => {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]!.message)
  return evaluate(design.value)
}
const open = read(r1())
const [charger, lights] = demoSupplies().map(read) as [typeof open, typeof open]

describe('the loop of a supply', () => {
  it('is judged at every mix of input, load, load kind, heat, age and optocoupler', () => {
    const { corners, worst } = loopOf(open)
    // Three inputs, three loads, two kinds of load for electronics, and eight leans of the parts.
    expect(corners).toHaveLength(3 * 3 * 2 * 8)
    expect(new Set(corners.map((c) => c.name)).size).toBe(corners.length)
    const phases = corners.flatMap((c) => (c.margins.ok ? [c.margins.phaseMargin_deg] : []))
    expect(worst?.phase.margins.ok && worst.phase.margins.phaseMargin_deg).toBe(Math.min(...phases))
  })

  it('has an optocoupler that makes it faster or slower, all else equal', () => {
    const { corners } = loopOf(open)
    for (const strong of corners.filter((c) => c.lean.transferRatio === 'maximum')) {
      const weak = corners.find(
        (c) =>
          c.condition === strong.condition &&
          c.load.kind === strong.load.kind &&
          c.lean.temperature === strong.lean.temperature &&
          c.lean.aged === strong.lean.aged &&
          c.lean.transferRatio === 'minimum',
      )
      if (!strong.margins.ok || !weak?.margins.ok) throw new Error('no crossover')
      expect(strong.margins.crossover_Hz).toBeGreaterThan(weak.margins.crossover_Hz)
    }
  })

  it('lies inside the band of its corners where typical parts do', () => {
    const { corners } = loopOf(open)
    const f = frequenciesBetween(10, 50e3, 60)
    const band = bandOf(corners, f)
    for (const corner of corners.slice(0, 9)) {
      const { gain_dB } = curveOf(corner, f)
      gain_dB.forEach((g, k) => {
        expect(g).toBeGreaterThanOrEqual(band.gainLow_dB[k]! - 1e-9)
        expect(g).toBeLessThanOrEqual(band.gainHigh_dB[k]! + 1e-9)
      })
    }
  })

  it('is not judged where pulses are skipped or nothing is drawn', () => {
    expect(loopAt(open, 'nominal-0')).toBeNull()
    expect(loopAt(open, 'short')).toBeNull()
    expect(loopAt(open, 'nominal-100')).not.toBeNull()
  })
})

describe('compensation that was left open', () => {
  it('is of preferred values and holds 30 degrees where the fixed pair of old does not', () => {
    const { feedback } = open.design
    expect(feedback.compensationResistor_ohm).toBe(seriesNearest(feedback.compensationResistor_ohm, 'E24'))
    expect(feedback.compensationCapacitor_F).toBe(seriesNearest(feedback.compensationCapacitor_F, 'E6'))
    const old = { ...feedback, compensationResistor_ohm: 4700, compensationCapacitor_F: 100e-9 }
    const margin = (of: Parameters<typeof loopOf>[1]) => {
      const m = loopOf(open, of).worst!.phase.margins
      return m.ok ? m.phaseMargin_deg : -180
    }
    expect(margin(feedback)).toBeGreaterThan(30)
    expect(margin(old)).toBeLessThan(margin(feedback))
  })

  it('leaves alone what the builder fixed', () => {
    const fixed = read(r1({ build: { feedback: { compensationResistor_ohm: 2000 } } }))
    expect(fixed.design.feedback.compensationResistor_ohm).toBe(2000)
    expect(fixed.design.feedback.compensationCapacitor_F).not.toBe(100e-9)
  })

  it('can be asked for another crossover, with the LED resistor inside its bracket', () => {
    const answer = suggestFor(
      lights.design,
      lights.conditions,
      {},
      { crossover_Hz: 800, phaseMargin_deg: 60 },
    )
    if (!answer.ok) throw new Error(answer.message)
    const { ledResistorMinimum_ohm: low, ledResistorMaximum_ohm: high } = lights.design.feedback
    expect(answer.network.ledResistor_ohm).toBeGreaterThanOrEqual(low)
    expect(answer.network.ledResistor_ohm).toBeLessThanOrEqual(high)
    expect(answer.aimed_Hz).toBeLessThanOrEqual(800)
    expect(answer.margins.leastPhase!.phaseMargin_deg).toBeGreaterThan(45)
  })
})

describe('tables round the loop', () => {
  it('bracket LED and reference over the optocoupler, and say what a back-feed shows', () => {
    const { rows, backFeed, answer } = biasOf(open.design)
    // 6 mA of pin current over the weak, hot, aged ratio of 1 × 0.7 × 0.75.
    expect(rows[0]!.ledNoPower_A).toBeCloseTo(6e-3 / (0.7 * 0.75), 6)
    expect(answer.ledResistorMinimum_ohm).toBeLessThan(answer.ledResistorMaximum_ohm)
    expect(backFeed.dark_V).toBeLessThan(open.fixed.outputSet_V)
    expect(backFeed.lit_V).toBeGreaterThan(open.fixed.outputSet_V)
  })

  it('give the trim range of the charger: asked, reached, and an open wiper that lets the output fall', () => {
    const trim = trimOf(charger.design)
    expect(trim.range.lowest_V).toBeLessThanOrEqual(charger.design.need.trimLow_V)
    expect(trim.range.highest_V).toBeGreaterThanOrEqual(charger.design.need.trimHigh_V)
    expect(trim.openWiper?.output).toBe('falls')
    // An untrimmed 1 % reference and 1 % resistors: 1 % + 2 × 0.79 % and drift.
    const fixed = trimOf(open.design)
    expect(fixed.deviation).toBeGreaterThan(0.025)
    expect(fixed.deviation).toBeLessThan(0.04)
  })

  it('give ripple by frequency whose squares sum to the ripple current of the capacitor', () => {
    const ripple = rippleOf(open, 'nominal-100')!
    const { capacitance_F: C, capacitorResistance_ohm: r } = loopAt(open, 'nominal-100')!.stage.filter
    let square = 0
    for (const line of ripple.lines.slice(1)) {
      const z = Math.hypot(r, 1 / (2 * Math.PI * line.frequency_Hz * C))
      square += (line.first_Vpp / 2 / z) ** 2 / 2
    }
    // Parseval; six harmonics hold all but a few per cent of a flyback's secondary ramp.
    expect(Math.sqrt(square) / ripple.switching.capacitor_Arms).toBeGreaterThan(0.95)
    expect(Math.sqrt(square) / ripple.switching.capacitor_Arms).toBeLessThan(1.01)
    for (const remedy of ripple.remedies) expect(remedy.load_Vpp).toBeLessThan(ripple.switching.load_Vpp)
  })

  it('name the parts of the drawer that would lower the ripple, what is at hand, and the price', () => {
    const { outputCapacitor } = open.design.parts
    const count = open.design.supply.build.outputCount
    const drawer = {
      ...starterDrawer,
      entries: starterDrawer.entries.map((e) =>
        e.part.id === outputCapacitor.id ? { part: { ...e.part, price: 0.6 }, quantity: count } : e,
      ),
    }
    const { remedies } = rippleOf(open, 'nominal-100', drawer)!
    const more = remedies.find((r) => r.id === 'another capacitor')!
    expect(more.parts).toMatchObject([{ part: { id: outputCapacitor.id }, pieces: 1, have: false }])
    expect(more.price).toBe(0.6)
    const ceramic = remedies.find((r) => r.id === 'ceramic')!
    expect(ceramic.parts[0]?.part).toMatchObject({ kind: 'capacitor', technology: 'ceramic' })
    const choke = remedies.find((r) => r.id === 'more choke' || r.id === 'choke and capacitor')!
    expect(choke.turns).toBeGreaterThan(0)
    expect(rippleOf(open, 'nominal-100')!.remedies.every((r) => r.parts.every((p) => !p.have))).toBe(true)
  })

  it('set no limit on the ripple of a charger', () => {
    const ids = (e: typeof open) => loopLimits(e, loopOf(e)).map((l) => l.id)
    expect(ids(charger)).not.toContain('output.ripple-all')
    expect(ids(lights)).toContain('output.ripple-all')
  })

  it.each(demoSupplies().map((s) => [s.name, s] as const))(
    '%s holds every limit of its loop',
    (_, supply) => {
      const e = read(supply)
      expect(loopLimits(e, loopOf(e)).filter((l) => !l.holds)).toEqual([])
    },
  )
})
