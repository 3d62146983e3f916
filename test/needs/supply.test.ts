import { describe, expect, it, test } from 'vitest'
import { modeInWords } from '../../src/engine/index.ts'
import { paperAsText } from '../../src/engine/papers/as-text.ts'
import { paperOf } from '../../src/engine/papers/index.ts'
import { partsRows } from '../../src/engine/papers/parts-rows.ts'
import { railsOf } from '../../src/engine/papers/rails.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { retarget, turnSteps } from '../../src/engine/search/index.ts'
import { conditionById } from '../../src/engine/supply/condition.ts'
import { at } from '../../src/engine/supply/evaluate.ts'
import { judged, supplyNames, supplyOf } from '../drawing/supplies.ts'
import { r1 } from '../reference/r1/r1.ts'

const plan = judged(r1())

describe('the reflected voltage', () => {
  it('trades drain and duty against the rectifier', () => {
    const aimed = (reflectedVoltage_V: number) => {
      const free = { primaryTurns: null, secondaryTurns: null, biasTurns: null }
      const { evaluation } = judged(r1({ build: { transformer: { ...free, reflectedVoltage_V } } }))
      const high = at(evaluation, 'maximum-100')!.readings
      return {
        plateau_V: high.drainPlateau_V,
        reverse_V: high.rectifierReverse_V,
        duty: at(evaluation, 'minimum-100')!.readings.duty,
        turns: evaluation.design.transformer.primaryTurns,
      }
    }
    const [low, high] = [aimed(75), aimed(115)]
    expect(high.plateau_V - low.plateau_V).toBeGreaterThan(25)
    expect(high.reverse_V).toBeLessThan(0.9 * low.reverse_V)
    expect(high.duty).toBeGreaterThan(low.duty)
    expect(Number.isInteger(low.turns) && Number.isInteger(high.turns)).toBe(true)
  })
})

describe('one turn of the secondary', () => {
  const steps = turnSteps(plan.evaluation.design, 1)
  const of = (turns: number) => steps.find((step) => step.secondaryTurns === turns)!

  // By hand at 375 V: 113, 99 and 88 V reflected; plateau 474 V and rectifier 60 V with 8 turns.
  it.each([
    [7, 113],
    [8, 99],
    [9, 88],
  ])('%i turns reflect %i V', (turns, reflected_V) =>
    expect(Math.abs(of(turns).high.reflectedVoltage_V / reflected_V - 1)).toBeLessThan(0.015),
  )

  it('shifts drain, rectifier, duty, peak and clamp, and says what gives first', () => {
    expect(Math.abs(of(8).high.drainPlateau_V / 474 - 1)).toBeLessThan(0.015)
    expect(Math.abs(of(8).high.rectifierReverse_V / 60 - 1)).toBeLessThan(0.03)
    const [few, many] = [of(7), of(9)]
    expect(few.high.drainPeak_V).toBeGreaterThan(many.high.drainPeak_V + 20)
    expect(few.high.rectifierReverse_V).toBeLessThan(many.high.rectifierReverse_V - 8)
    expect(few.low.duty).toBeGreaterThan(many.low.duty + 0.02)
    for (const step of steps) expect(step.givesFirst.title).not.toBe('')
  })
})

describe('the mode', () => {
  it('is said in words wherever the supply runs, with the currents between which it swings', () => {
    for (const c of plan.evaluation.conditions)
      if (c.runs) expect(modeInWords(c)).toMatch(/^(continuous|discontinuous|boundary|skip).* A/)
    expect(paperAsText(paperOf('report', plan, null))).toMatch(/Lowest input, full: continuous/)
  })
})

describe('worst cases', () => {
  test('take the extreme that hurts: most inductance and limit for flux, least of both for power', () => {
    const corner = (id: string) => conditionById.get(plan.limits.find((l) => l.id === id)!.condition!)!.corner
    expect(corner('core.saturation')).toBe('flux')
    expect(corner('switcher.drain-voltage')).toBe('flux')
    expect(corner('supply.power')).toBe('power')
    expect(corner('bulk.valley')).toBe('power')
  })
})

describe('another output from the windings as built', () => {
  const to = (output_V: number) => {
    const result = retarget(r1(), starterDrawer, output_V, 24 / Math.max(12, output_V))
    if (!result.ok) throw new Error(result.problems[0]!.message)
    return result.value
  }
  // By hand: 123 V reflected, 63 V at the rectifier. The bias of 9 turns is 13.4 V and not 14 V at 12 V out.
  it('of 15 V: reflected 123 V, rectifier 63 V, bias up by a quarter, and a verdict', () => {
    const { verdict, moved } = to(15)
    expect(Math.abs(moved!.reflectedVoltage_V / 123 - 1)).toBeLessThan(0.01)
    expect(Math.abs(moved!.rectifierReverse_V / 63 - 1)).toBeLessThan(0.02)
    const usual = at(plan.evaluation, 'nominal-100')!.readings.bias_V
    // Leakage's share of the bias does not grow with the output.
    expect(Math.abs(moved!.bias_V / usual / (17.5 / 14) - 1)).toBeLessThan(0.05)
    expect(['divider', 'parts', 'rewind']).toContain(verdict)
  })

  it('of 24 V: each broken limit names its part, its reading and what it stands', () => {
    const { verdict, broken, changed } = to(24)
    expect(verdict).not.toBe('divider')
    expect(broken.map((l) => l.spot)).toEqual(expect.arrayContaining(['outputCapacitor', 'switcher']))
    for (const limit of broken) expect(limit.reading).not.toBe(limit.rating)
    expect(changed.map(({ spot }) => spot)).toContain('outputCapacitor')
  })
})

describe('the parts list', () => {
  it.each(supplyNames)('of %s says of every row what a substitute must have', (name) => {
    const { evaluation, limits } = judged(supplyOf(name))
    for (const row of partsRows(evaluation, limits, starterDrawer))
      expect(row.requirement, `${row.reference} ${row.description}`).toMatch(/\S{2}/)
  })

  it('asks volts, amperes, recovery, class, transfer ratio, current limit and pins', () => {
    const { evaluation, limits } = judged(supplyOf('everything'))
    const of = (spot: string) =>
      partsRows(evaluation, limits, null).find((row) => row.spot === spot)!.requirement
    expect(of('rectifier')).toMatch(/reverse voltage.*mean current.*Schottky/)
    expect(of('clampDiode')).toMatch(/reverse voltage.*recovers within/)
    expect(of('xCapacitor')).toMatch(/class X2/)
    expect(of('yCapacitor')).toMatch(/class Y1/)
    expect(of('optocoupler')).toMatch(/transfer ratio.*creepage/)
    expect(of('switcher')).toMatch(/drain voltage.*current limit/)
    expect(of('former')).toMatch(/pins/)
    // Twice what it burns, and a voltage that may take two in series.
    expect(of('clampResistor')).toMatch(/rated .*W or more; .*V, two in series/)
  })
})

describe('rails', () => {
  const [output, bias] = railsOf(plan.evaluation)

  it('name the regulated one, and give the other its least, its greatest and its preload', () => {
    expect([output.regulated, bias.regulated]).toEqual([true, false])
    expect(output.least_V).toBeLessThan(12)
    expect(output.greatest_V).toBeGreaterThan(12)
    expect(bias.least_V).toBeLessThanOrEqual(bias.greatest_V)
    expect(bias.least_V).toBeGreaterThan(plan.evaluation.design.parts.switcher.biasVoltage_V.minimum)
    for (const rail of [output, bias]) expect(rail.preload).not.toBe('')
    expect(paperAsText(paperOf('report', plan, null))).toMatch(/Bias +turns alone/)
  })

  it('ask more load of a bias that leaves what the chip stands', () => {
    const over = judged(r1({ build: { transformer: { biasTurns: 16 } } }))
    expect(railsOf(over.evaluation)[1].preload).toMatch(/not enough/)
    expect(over.limits.find((l) => l.id === 'switcher.bias-high')!.holds).toBe(false)
  })
})
