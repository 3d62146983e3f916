import { describe, expect, test } from 'vitest'
import { filterGain, firstRipple_Vpp } from './filter.ts'
import { shortPeak_A } from './short.ts'

describe('filterGain', () => {
  test('falls as one over L C w² well above the corner, without resistance', () => {
    const w = 2 * Math.PI * 1e5
    const gain = filterGain(10e-6, 0, 470e-6, 0, 1e5)
    expect(gain).toBeCloseTo(1 / (w * w * 10e-6 * 470e-6 - 1), 12)
  })
  test('is held up by the resistance of the capacitor', () => {
    const w = 2 * Math.PI * 1e5
    expect(filterGain(10e-6, 0, 1, 0.05, 1e5)).toBeCloseTo(0.05 / Math.hypot(0.05, w * 10e-6), 6)
  })
})

test('first ripple is the step in the resistance and the charge given away', () => {
  expect(firstRipple_Vpp(6.7, 2, 0.465, 1e5, 1000e-6, 0.02)).toBeCloseTo(0.134 + (2 * 0.535) / 100, 12)
})

describe('shortPeak_A', () => {
  const short = {
    bulk_V: 375,
    minimumOnTime_s: 4e-7,
    frequency_Hz: 1e5,
    turnsRatio: 4,
    rectifierDrop_V: 0.6,
    secondaryResistance_ohm: 0.02,
    inductance_H: 800e-6,
    leakage_H: 10e-6,
    limitPeak_A: 1,
    skipsPulses: false,
  }
  test('is the limit where the current falls enough in each cycle', () => {
    expect(shortPeak_A({ ...short, bulk_V: 100, minimumOnTime_s: 1e-7 })).toBe(1)
  })
  test('climbs to where rise and fall meet', () => {
    const peak = shortPeak_A(short)
    const off = 1e-5 - 4e-7
    expect(4 * (0.6 + 4 * peak * 0.04) * off + 0.5 * 10e-6 * peak).toBeCloseTo(375 * 4e-7, 12)
    expect(peak).toBeGreaterThan(1)
  })
  test('is one shortest on-time above the limit for a chip that skips pulses', () => {
    // di = V t / L, the definition of inductance
    expect(shortPeak_A({ ...short, skipsPulses: true })).toBeCloseTo(1 + (375 * 4e-7) / 800e-6, 12)
  })
})
