import { describe, expect, test } from 'vitest'
import { powerCeiling } from './ceiling.ts'
import { boundaryAverage_A, continuousDuty, stageCycle } from './stage.ts'

const stage = { on_V: 300, reflected_V: 100, inductance_H: 900e-6, frequency_Hz: 1e5, minimumOnTime_s: 3e-7 }

describe('stageCycle', () => {
  test('meets at the boundary of modes from both sides', () => {
    const edge = boundaryAverage_A(300, 100, 900e-6, 1e5)
    const below = stageCycle({ ...stage, average_A: edge * (1 - 1e-9) })
    const above = stageCycle({ ...stage, average_A: edge * (1 + 1e-9) })
    expect(below.mode).toBe('discontinuous')
    expect(above.mode).toBe('continuous')
    expect(above.peak_A).toBeCloseTo(below.peak_A, 6)
    expect(above.valley_A).toBeCloseTo(0, 6)
    expect(above.duty).toBeCloseTo(below.duty, 6)
  })
  test('carries the mean current it is asked for in every mode', () => {
    for (const average_A of [0.001, 0.01, 0.1, 0.3, 1]) {
      const c = stageCycle({ ...stage, average_A })
      const mean = 0.5 * (c.peak_A + c.valley_A) * c.duty * (c.rate_Hz / stage.frequency_Hz)
      expect(mean).toBeCloseTo(average_A, 9)
    }
  })
  test('skips below the power of the shortest pulse', () => {
    const c = stageCycle({ ...stage, average_A: 1e-4 })
    expect(c.mode).toBe('skip')
    expect(c.peak_A).toBeCloseTo((300 * 3e-7) / 900e-6, 12)
    expect(c.rate_Hz).toBeLessThan(1e5)
  })
})

describe('powerCeiling', () => {
  test('turns the cycle round: a stage at its ceiling peaks at the limit', () => {
    for (const limit_A of [0.3, 0.9, 2]) {
      const ceiling = powerCeiling(300, 100, 900e-6, 1e5, limit_A, 0.67, 0)
      const c = stageCycle({ ...stage, average_A: ceiling.average_A })
      expect(c.peak_A).toBeCloseTo(limit_A, 9)
      expect(c.mode).toBe(ceiling.mode)
    }
  })
  test('is stopped by duty where continuous mode asks for more', () => {
    const ceiling = powerCeiling(40, 100, 300e-6, 1e5, 5, 0.6, 0)
    expect(continuousDuty(40, 100)).toBeGreaterThan(0.6)
    expect(ceiling.stoppedBy).toBe('duty')
    expect(ceiling.peak_A).toBeCloseTo((40 * 0.6) / (300e-6 * 1e5), 12)
  })
})

describe('powerCeiling with slope compensation', () => {
  const slope = 40e3
  // The pulse ends where the rising current, from the valley that repeats, meets Ilim - s t: followed cycle by cycle.
  test.each([
    [300, 100, 900e-6, 0.9],
    [300, 100, 300e-6, 0.9],
    [120, 100, 500e-6, 2],
  ])('is where a cycle followed in time settles: %d V, %d V, %d H, %d A', (on_V, reflected_V, L, limit_A) => {
    const period_s = 1e-5
    let current_A = 0
    let on_s = 0
    let peak_A = 0
    for (let cycle = 0; cycle < 400; cycle++) {
      on_s = (limit_A - current_A) / (on_V / L + slope)
      peak_A = current_A + (on_V / L) * on_s
      current_A = Math.max(0, peak_A - (reflected_V / L) * (period_s - on_s))
    }
    const start_A = Math.max(0, peak_A - (reflected_V / L) * (period_s - on_s))
    const ceiling = powerCeiling(on_V, reflected_V, L, 1e5, limit_A, 0.9, slope)
    expect(ceiling.peak_A).toBeCloseTo(peak_A, 9)
    expect(ceiling.average_A).toBeCloseTo((0.5 * (peak_A + start_A) * on_s) / period_s, 9)
  })
})
