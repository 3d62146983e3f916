import { describe, expect, it } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assess, assessWhole, withLoopLimits } from './index.ts'
import { tryNetwork } from './try-network.ts'

const supply = demoSupplies()[0]!
const judged = assess(supply)
if (!judged.ok) throw new Error(judged.problems[0]!.message)
const { evaluation } = judged.value
const { ledResistor_ohm, compensationResistor_ohm, compensationCapacitor_F, highFrequencyCapacitor_F } =
  evaluation.design.feedback
const present = {
  ledResistor_ohm,
  compensationResistor_ohm,
  compensationCapacitor_F,
  highFrequencyCapacitor_F,
}

describe('another network', () => {
  it('is no worse where it is the present one', () => {
    const trial = tryNetwork(evaluation, present)
    expect(trial.worse).toBe(false)
    expect(trial.then_deg).toBe(trial.now_deg)
  })
  it('is worse where it takes the phase away', () => {
    const wild = { ledResistor_ohm: 10, compensationResistor_ohm: 1e6, compensationCapacitor_F: 1e-6 }
    const trial = tryNetwork(evaluation, { ...wild, highFrequencyCapacitor_F: 0 })
    expect(trial.worse).toBe(true)
    expect(trial.then_deg!).toBeLessThan(trial.now_deg!)
  })
})

describe('the verdict on a supply', () => {
  it('holds the limits of the loop among the others, weakest first', () => {
    const whole = assessWhole(supply)
    if (!whole.ok) throw new Error('no verdict')
    expect(whole.value.limits.map((l) => l.id)).toContain('loop.phase-margin')
    expect(whole.value.limits).toEqual(withLoopLimits(judged.value).limits)
    expect(whole.value.limits.filter((l) => !l.id.startsWith('loop.')).length).toBeGreaterThanOrEqual(
      judged.value.limits.length,
    )
    expect(whole.value.givesFirst).toBe(whole.value.limits[0])
    expect(whole.value.holds).toBe(whole.value.limits.every((l) => l.holds))
  })
})
