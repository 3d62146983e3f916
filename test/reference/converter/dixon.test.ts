import { describe, expect, test } from 'vitest'
import { continuousDuty } from '../../../src/engine/converter/stage.ts'
import { fluxDensity_T, reflectedVoltage_V, turnsForFlux } from '../../../src/engine/converter/turns.ts'
import {
  alternatingRms_A,
  trapezoidAverage_A,
  trapezoidRms_A,
} from '../../../src/engine/converter/waveform.ts'

const within = (value: number, expected: number, relative: number) =>
  expect(Math.abs(value / expected - 1), `${value} against ${expected}`).toBeLessThan(relative)

/** Dixon, Magnetics Design Handbook sect. 5, p. 5-12 to 5-15. Three printed digits: 0.5 %. */
describe('continuous flyback, 28 V to 5 V 10 A', () => {
  test('reflected voltage of 30 to 6 turns is the nominal input at half duty', () => {
    within(reflectedVoltage_V(5, 0.6, 30, 6), 28, 1e-9)
    within(continuousDuty(28, 28), 0.5, 1e-9)
  })
  test('duty at 24 V', () => {
    within(continuousDuty(24, 28), 0.538, 0.005)
    within(1 - continuousDuty(24, 28), 0.462, 0.005)
  })
  test('secondary turns by flux swing and by short-circuit peak', () => {
    within(turnsForFlux(6.8e-6, 5, 0.06, 0.97e-4), 5.84, 0.005)
    within(turnsForFlux(6.8e-6, 25, 0.3, 0.97e-4), 5.84, 0.005)
    within(fluxDensity_T(6.8e-6, 5, 6, 0.97e-4), 0.06 * (5.84 / 6), 0.005)
  })
  test('secondary currents with the slope left out', () => {
    const flat = 10 / 0.462
    within(flat, 21.65, 0.005)
    within(trapezoidRms_A(flat, flat, 0.462), 14.7, 0.005)
    within(alternatingRms_A(trapezoidRms_A(flat, flat, 0.462), 10), 10.77, 0.005)
  })
  test('primary currents', () => {
    within(trapezoidAverage_A(4.33, 4.33, 0.538), 2.33, 0.005)
    within(trapezoidRms_A(4.33, 4.33, 0.538), 3.18, 0.005)
    within(alternatingRms_A(3.18, 2.33), 2.16, 0.005)
  })
  test.each([
    [0.5, 0.01],
    [1, 0.04],
  ])('leaving out a slope of %f of the mean costs %f of the rms', (slope, cost) => {
    const sloped = trapezoidRms_A(1 + slope / 2, 1 - slope / 2, 1)
    // Printed as whole per cents.
    expect(Math.abs(sloped - 1 - cost)).toBeLessThan(0.001)
  })
})

/** The same, p. 5-9 to 5-10: 2.2 µH, 50 A, 10 A ripple. */
describe('buck inductor', () => {
  test('turns by flux swing', () => within(turnsForFlux(2.2e-6, 10, 0.046, 0.97e-4), 4.93, 0.005))
  test('ripple current, rms', () =>
    // Two printed digits.
    within(alternatingRms_A(trapezoidRms_A(55, 45, 1), 50), 2.9, 0.02))
})
