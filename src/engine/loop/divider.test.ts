import { describe, expect, it } from 'vitest'
import { withTolerance } from '../quantity/spread.ts'
import { dividerSensitivity, openWiper, outputVoltage, trimRange, worstCaseOutput } from './divider.ts'

const reference = withTolerance(2.5, 0.01)
const divider = {
  top_ohm: 38e3,
  bottom_ohm: 9e3,
  trimmer_ohm: 2e3,
  tolerance: 0.01,
  trimmerTolerance: 0.2,
  referenceInput_A: 0,
}

describe('divider', () => {
  it('gives 12 V from 38 k over 10 k and 2.5 V (Kirchhoff)', () => {
    expect(outputVoltage(2.5, 38e3, 10e3, 0)).toBeCloseTo(12, 12)
    expect(outputVoltage(2.5, 38e3, 10e3, 2e-6)).toBeCloseTo(12.076, 12)
  })

  it('nests its ranges: certain inside typical inside worst', () => {
    const r = trimRange(reference, divider)
    expect(r.lowest_V).toBeCloseTo(2.5 * (1 + 38 / 11), 9)
    expect(r.highest_V).toBeCloseTo(2.5 * (1 + 38 / 9), 9)
    expect(r.worstLow_V).toBeLessThan(r.lowest_V)
    expect(r.lowest_V).toBeLessThan(r.certainLow_V)
    expect(r.certainLow_V).toBeLessThan(r.certainHigh_V)
    expect(r.certainHigh_V).toBeLessThan(r.highest_V)
    expect(r.highest_V).toBeLessThan(r.worstHigh_V)
  })

  it('spreads a fixed output by the sum of sensitivities, to first order', () => {
    const w = worstCaseOutput(reference, { ...divider, bottom_ohm: 10e3, trimmer_ohm: 0 }, 0)
    const s = dividerSensitivity(12, 2.5)
    // second-order terms of three 1 % tolerances: 0.1 %
    expect(Math.abs(w.maximum / w.typical - 1 - (0.01 + 2 * 0.01 * s))).toBeLessThan(1e-3)
  })

  it('knows which way an open wiper goes', () => {
    expect(openWiper('rheostat-bottom', 2.5)).toMatchObject({ output: 'falls', limit_V: 2.5 })
    expect(openWiper('rheostat-top', 2.5).output).toBe('rises')
    expect(openWiper('potentiometer', 2.5).output).toBe('rises')
  })

  it('refuses a negative resistor by name and limit', () => {
    expect(() => outputVoltage(2.5, -1, 1e3, 0)).toThrow(/top_ohm is -1/)
  })
})
