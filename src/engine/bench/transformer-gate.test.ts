import { describe, expect, test } from 'vitest'
import { judged } from '../../../test/reference/bench/supplies.ts'
import { limits } from '../limits/index.ts'
import { emptyBench, type Measured } from '../supply/bench-log.ts'
import { transformerGate } from './transformer-gate.ts'

const { evaluation } = judged()
const lcr = (value: number): Measured => ({
  value,
  instrument: 'LCR meter',
  frequency_Hz: 1e4,
  accuracy: 0.02,
})
const gate = (readings: Record<string, number>) =>
  transformerGate(evaluation, {
    ...emptyBench().asBuilt,
    ...Object.fromEntries(Object.entries(readings).map(([k, v]) => [k, lcr(v)])),
  })
const planned_H = evaluation.design.transformer.plannedInductance_H.typical

describe('the reference supply, by the figures that the trade works out for it', () => {
  test('as planned: accepted, with the numbers that matter', () => {
    const g = gate({ primaryInductance_H: planned_H, leakage_H: 0.018 * planned_H })
    expect(g.verdict).toBe('accept')
    expect(g.fixes).toEqual([])
    expect(g.reasons[0]).toMatch(/mT/)
  })

  test('1650 uH: about half the gap, do not power', () => {
    const g = gate({ primaryInductance_H: 1650e-6 })
    expect(g.verdict).toBe('reject')
    expect(g.reasons.join(' ')).toMatch(/half the gap/)
    expect(g.reasons.join(' ')).toMatch(/do not power/)
    expect(g.fixes.map((f) => f.effort)).toEqual(['minutes', 'change the gap'])
  })

  test('480 uH: the gap is about twice, ceiling at lowest input about 22 W', () => {
    const g = gate({ primaryInductance_H: 480e-6 })
    expect(g.verdict).toBe('adjust')
    expect(g.reasons.join(' ')).toMatch(/twice the gap/)
    // 22 W for the supply at its 92 V valley; here 87 V, other losses: 18 to 24 W.
    expect(g.numbers.ceiling_W).toBeGreaterThan(18)
    expect(g.numbers.ceiling_W).toBeLessThan(24)
  })

  test('spacers under all legs of full value are named so', () => {
    const legs = judged({ build: { transformer: { gapPlace: 'all-legs' } } }).evaluation
    const L = legs.design.transformer.plannedInductance_H.typical
    const g = transformerGate(legs, { ...emptyBench().asBuilt, primaryInductance_H: lcr(0.55 * L) })
    expect(g.reasons.join(' ')).toMatch(/spacers are full value/)
  })
})

// The gate and the list of limits read the same supply: what one forbids the other does not let pass.
test.each([0.5, 0.7, 0.85, 1, 1.15, 1.25, 1.35, 1.5, 1.8, 3])(
  'at %f times the planned inductance says what the limits say',
  (times) => {
    const g = gate({ primaryInductance_H: times * planned_H })
    const broken = limits(g.evaluation)
      .filter((limit) => !limit.holds)
      .map(({ id }) => id)
    const said = g.reasons.join(' ')
    expect(/do not power/.test(said)).toBe(broken.includes('core.saturation'))
    expect(/gives out loaded/.test(said)).toBe(broken.includes('supply.power') && g.verdict !== 'reject')
    if (g.verdict === 'accept') expect(broken).toEqual([])
  },
)

test('the loss of the clamp at full load is that of full load', () => {
  const g = gate({ primaryInductance_H: planned_H, leakage_H: 0.06 * planned_H })
  const full = g.evaluation.conditions.flatMap((c) =>
    c.runs && c.condition.load === 1 ? [c.readings.clamp_W] : [],
  )
  expect(g.numbers.clamp_W).toBe(Math.max(...full))
})

test('leakage of 6 % is an adjustment, rewinding comes last', () => {
  const g = gate({ primaryInductance_H: planned_H, leakage_H: 0.06 * planned_H })
  expect(g.verdict).toBe('adjust')
  expect(g.fixes.at(-1)!.effort).toBe('rewind')
  expect(g.numbers.clamp_W).toBeGreaterThan(1.5 * g.numbers.plannedClamp_W)
})

test('aiding below opposing is a reversed winding', () => {
  const g = gate({ aidingInductance_H: 0.76 * planned_H, opposingInductance_H: 1.27 * planned_H })
  expect(g.verdict).toBe('reject')
  expect(g.reasons[0]).toMatch(/reversed/)
})

test('an inductance that collapses is a shorted turn', () => {
  const g = gate({ primaryInductance_H: 0.1 * planned_H })
  expect(g.verdict).toBe('reject')
  expect(g.reasons[0]).toMatch(/shorted turn/)
})

test('measured values stand in the design that it hands on, and only they', () => {
  const g = gate({ primaryInductance_H: 800e-6, leakage_H: 20e-6 })
  const t = g.evaluation.design.transformer
  expect(t.primaryInductance_H.typical).toBe(800e-6)
  expect(t.leakage_H.typical).toBe(20e-6)
  expect(t.primaryTurns).toBe(evaluation.design.transformer.primaryTurns)
  expect(g.evaluation.design.clamp).toEqual(evaluation.design.clamp)
})

test('what is accepted without its inductance is accepted as far as it was read', () => {
  expect(gate({ primaryResistance_ohm: 1 }).reasons.join(' ')).toMatch(/with the inductance of the plan/)
  expect(gate({ primaryInductance_H: planned_H }).reasons.join(' ')).not.toMatch(/of the plan/)
})

test('nothing measured says so', () => {
  expect(gate({}).verdict).toBe('nothing measured')
})
