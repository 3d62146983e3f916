import { describe, expect, it } from 'vitest'
import { decimate, lowerBound, valueAt } from './decimate.ts'

const x = Float64Array.from({ length: 10_001 }, (_, i) => i * 1e-9)
const spike = x.map((_, i) => (i === 7_777 ? 650 : i === 3_333 ? -20 : 100))

describe('thinning a waveform', () => {
  it('keeps every spike, both ends and rising times, in few points', () => {
    const thin = decimate(x, spike, 0, 10e-6, 200)
    expect(Math.max(...thin.y)).toBe(650)
    expect(Math.min(...thin.y)).toBe(-20)
    expect(thin.x[0]).toBe(0)
    expect(thin.x.at(-1)).toBeCloseTo(10e-6, 12)
    expect(thin.x.length).toBeLessThanOrEqual(804)
    expect(thin.x.every((t, i) => i === 0 || t >= thin.x[i - 1]!)).toBe(true)
  })

  it('gives every point of a short stretch', () => {
    const thin = decimate(x, spike, 7.77e-6, 7.79e-6, 200)
    expect(thin.x.length).toBeLessThan(30)
    expect(Math.max(...thin.y)).toBe(650)
  })

  it('reads values between points and holds the ends', () => {
    expect(valueAt([0, 1, 3], [0, 10, 30], 2)).toBe(20)
    expect(valueAt([0, 1, 3], [0, 10, 30], -1)).toBe(0)
    expect(valueAt([0, 1, 3], [0, 10, 30], 9)).toBe(30)
    expect(lowerBound([0, 1, 1, 3], 1)).toBe(1)
  })
})
