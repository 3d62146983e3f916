import { describe, expect, test } from 'vitest'
import { type RingingPath, recoveryCurrent_A, ringingPeak_V, ringingResponse } from './ringing.ts'

const path: RingingPath = {
  leakage_H: 94e-9,
  damping_ohm: 1e9,
  series_ohm: 0,
  junction_F: 230e-12,
  snubber: null,
}
const impedance_ohm = Math.sqrt(path.leakage_H / path.junction_F)

describe('ringing of a rectifier', () => {
  // Steps of a thirty-second of a period miss a peak by 1 - cos(π/32), half a per cent.
  test('without losses it reaches twice the step', () => {
    const peak = ringingPeak_V(ringingResponse(path), 97, 0)
    expect(peak / (2 * 97)).toBeGreaterThan(0.994)
    expect(peak / (2 * 97)).toBeLessThanOrEqual(1.0001)
  })
  test('with series resistance it overshoots by exp(-π ζ/sqrt(1 - ζ²)), any text on second-order systems', () => {
    for (const zeta of [0.05, 0.2, 0.4]) {
      const peak = ringingPeak_V(ringingResponse({ ...path, series_ohm: 2 * zeta * impedance_ohm }), 1, 0)
      expect(peak).toBeCloseTo(1 + Math.exp((-Math.PI * zeta) / Math.sqrt(1 - zeta * zeta)), 1.8)
    }
  })
  test('a current in the leakage adds its energy: V + sqrt(V² + L I²/C)', () => {
    const peak = ringingPeak_V(ringingResponse(path), 97, 3)
    expect(peak / (97 + Math.hypot(97, 3 * impedance_ohm))).toBeCloseTo(1, 2)
  })
  test('a snubber of the usual values takes most of it away', () => {
    const snubber = { resistor_ohm: impedance_ohm, capacitor_F: 3.5 * path.junction_F }
    expect(ringingPeak_V(ringingResponse({ ...path, snubber }), 1, 0)).toBeLessThan(1.45)
  })
})

describe('recoveryCurrent_A', () => {
  test('solves the charge balance, followed in time', () => {
    for (const [forward, lifetime, volts, leakage] of [
      [2, 35e-9, 97, 844e-9],
      [10, 35e-9, 50, 300e-9],
      [0.5, 100e-9, 200, 500e-9],
    ] as const) {
      let charge = forward * lifetime
      let current = forward
      const h = lifetime / 50000
      while (charge > 0) {
        charge += h * (current - charge / lifetime)
        current -= (h * volts) / leakage
      }
      expect(recoveryCurrent_A(forward, lifetime, volts, leakage) / -current).toBeCloseTo(1, 3)
    }
  })
  test('is none for a Schottky or after the current has ended', () => {
    expect(recoveryCurrent_A(2, 0, 97, 1e-6)).toBe(0)
    expect(recoveryCurrent_A(0, 35e-9, 97, 1e-6)).toBe(0)
  })
})
