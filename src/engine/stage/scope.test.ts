import { describe, expect, it } from 'vitest'
import { scopeSetting, timePerDivision_s } from './scope.ts'

describe('setting of a scope', () => {
  it('takes steps of 1, 2 and 5 and keeps the waveform on the screen', () => {
    expect(scopeSetting(-1, 560)).toEqual({ perDivision: 100, zeroAt: -3 })
    expect(scopeSetting(0, 1.4).perDivision).toBeCloseTo(0.2, 12)
    expect(scopeSetting(-0.03, 0.03).zeroAt).toBeCloseTo(0, 12)
    for (const [low, high] of [
      [-80, 15],
      [0, 0.05],
      [12, 13],
      [-1e-3, 2e3],
    ] as const) {
      const { perDivision, zeroAt } = scopeSetting(low, high)
      expect(high / perDivision + zeroAt).toBeLessThanOrEqual(4)
      expect(Math.min(0, low) / perDivision + zeroAt).toBeGreaterThanOrEqual(-4)
    }
  })

  it('fits a span into ten divisions', () => {
    expect(timePerDivision_s(20e-6)).toBeCloseTo(2e-6, 12)
    expect(timePerDivision_s(21e-6)).toBeCloseTo(5e-6, 12)
  })
})
