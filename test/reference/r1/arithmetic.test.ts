import { describe, expect, test } from 'vitest'
import { powerCeiling } from '../../../src/engine/converter/ceiling.ts'
import {
  clampPower_W,
  clampResistor_ohm,
  leakagePower_W,
  settledClamp_V,
} from '../../../src/engine/converter/clamp.ts'
import { stageCycle } from '../../../src/engine/converter/stage.ts'
import {
  aidingInductance_H,
  fluxDensity_T,
  inductanceForRipple_H,
  opposingInductance_H,
  railVoltage_V,
  reflectedVoltage_V,
} from '../../../src/engine/converter/turns.ts'
import { alternatingRms_A, trapezoidRms_A } from '../../../src/engine/converter/waveform.ts'
import { plainPostGap, plainSpacer } from '../../../src/engine/magnetics/gap/index.ts'
import { valleyWithFixedConduction } from '../../../src/engine/mains/index.ts'

/** Hand figures carry two or three digits: 1 %. */
const within = (value: number, expected: number, relative = 0.01) =>
  expect(Math.abs(value / expected - 1), `${value} against ${expected}`).toBeLessThan(relative)

const stage_W = 24 / 0.82
const reflected = reflectedVoltage_V(12, 0.6, 63, 8)
/** Switch drop that makes the hand figures of duty 0.535. */
const on_V = 92 - 5.8
const L = 910e-6
const cycle = stageCycle({
  on_V,
  reflected_V: reflected,
  inductance_H: L,
  frequency_Hz: 1e5,
  average_A: stage_W / 92,
  minimumOnTime_s: 2e-7,
})

describe('bulk', () => {
  test.each([
    [68, 92],
    [47, 76],
    [33, 45],
    [100, 102],
  ])('%f µF: valley of %f V', (capacitance_uF, valley_V) =>
    within(valleyWithFixedConduction(85, 50, capacitance_uF * 1e-6, stage_W, 3e-3)!, valley_V),
  )
})

describe('stage at the valley', () => {
  test('reflected voltage', () => within(reflected, 99))
  test('duty', () => within(cycle.duty, 0.535))
  test('primary peak and rms', () => {
    within(cycle.peak_A, 0.85)
    within(trapezoidRms_A(cycle.peak_A, cycle.valley_A, cycle.duty), 0.45)
  })
  test('ripple to peak', () => within((cycle.peak_A - cycle.valley_A) / cycle.peak_A, 0.6))
  test('inductance for that ripple', () =>
    within(inductanceForRipple_H(on_V, reflected, stage_W / 92, 1e5, 0.6), L))
  test('secondary peak, rms and capacitor ripple', () => {
    const ratio = 63 / 8
    const rms = trapezoidRms_A(cycle.peak_A * ratio, cycle.valley_A * ratio, 1 - cycle.duty)
    within(cycle.peak_A * ratio, 6.7)
    within(rms, 3.3)
    within(alternatingRms_A(rms, 2), 2.6)
  })
  test('power ceiling, and what double spacers leave of it', () => {
    within(0.82 * 92 * powerCeiling(on_V, reflected, L, 1e5, 1.02, 0.67).average_A, 31)
    within(0.82 * 92 * powerCeiling(on_V, reflected, 0.53 * L, 1e5, 1.02, 0.67).average_A, 22, 0.015)
  })
  test('the discontinuous form promises 39 W that are not there', () => {
    within(0.5 * L * 1.02 ** 2 * 1e5 * 0.82, 39)
    expect(powerCeiling(on_V, reflected, L, 1e5, 1.02, 0.67).mode).toBe('continuous')
  })
})

describe('transformer', () => {
  test('gap in the post, spacer in all legs, and with legs of 0.8 of the post', () => {
    // 1/AL less the core's reluctance, no fringing: the hand form.
    within(plainPostGap(52e-6, L / 63 ** 2, (4e-7 * Math.PI * 2000 * 52e-6) / 57.5e-3), 0.256e-3)
    within(plainSpacer(0.256e-3, 1), 0.128e-3)
    within(plainSpacer(0.256e-3, 0.8), 0.114e-3)
  })
  test('peak flux at the working peak and at the limit', () => {
    within(fluxDensity_T(L, 0.85, 63, 52e-6), 0.236)
    within(fluxDensity_T(L, 1.02, 63, 52e-6), 0.284)
  })
  test('aiding and opposing', () => {
    within(aidingInductance_H(1, 63 / 8), 1.27)
    within(opposingInductance_H(1, 63 / 8), 0.76)
  })
  test('one secondary turn out', () => {
    within(reflectedVoltage_V(12, 0.6, 63, 7), 113)
    within(reflectedVoltage_V(12, 0.6, 63, 9), 88)
  })
})

describe('clamp', () => {
  test.each([
    [0.01, 1.5, 1.0, 0.33],
    [0.03, 1.5, 3.0, 1.0],
    [0.05, 1.5, 4.9, 1.65],
    [0.01, 2, 0.7, 0.33],
    [0.03, 2, 2.0, 1.0],
    [0.05, 2, 3.3, 1.65],
  ])(
    'leakage %f of L at %f times reflected: %f W, and %f W by leakage alone',
    (share, ratio, loss_W, alone_W) => {
      const alone = leakagePower_W(share * L, 0.85, 1e5)
      // Two digits.
      within(alone, alone_W, 0.015)
      within(clampPower_W(alone, ratio * reflected, reflected), loss_W, 0.07)
    },
  )
  test('3 % at 150 V: 3.0 W and 7.6 kΩ; 2 %: 2.0 W and 11.4 kΩ', () => {
    for (const [share, loss_W, resistor_ohm] of [
      [0.03, 2.9, 7.6e3],
      [0.02, 2.0, 11.4e3],
    ] as const) {
      const alone = leakagePower_W(share * L, 0.85, 1e5)
      within(clampPower_W(alone, 150, reflected), loss_W, 0.04)
      within(clampResistor_ohm(alone, 150, reflected), resistor_ohm, 0.04)
      within(settledClamp_V(alone, clampResistor_ohm(alone, 150, reflected), reflected), 150, 1e-9)
    }
  })
})

describe('at another output voltage, windings unchanged', () => {
  test.each([
    [15, 123, 63],
    [5, 44, 53],
    [24, 194, 72],
  ])('%f V: reflected %f V, rectifier %f V', (output_V, reflected_V, reverse_V) => {
    within(reflectedVoltage_V(output_V, 0.6, 63, 8), reflected_V)
    within(output_V + 375 / (63 / 8), reverse_V)
  })
  test.each([
    [15, 17.5],
    [5, 5.9],
    [24, 27.9],
  ])('bias at %f V is %f V', (output_V, bias_V) => {
    // 14 V at 12 V out; diode drop 0.7 V: volts per turn are fixed.
    const turns = (14 + 0.7) / 12.6
    within(railVoltage_V(output_V, 0.6, 1, turns, 0.7), bias_V, 0.02)
  })
})
