import { describe, expect, it } from 'vitest'
import { dividerPairs } from './divider.ts'
import { seriesAbove, seriesBelow, seriesBetween, seriesNearest } from './e-series.ts'

describe('E series', () => {
  it('finds the neighbours of a value', () => {
    expect(seriesNearest(1830, 'E12')).toBe(1800)
    expect(seriesBelow(1830, 'E12')).toBe(1800)
    expect(seriesAbove(1830, 'E12')).toBe(2200)
    expect(seriesAbove(9.5, 'E24')).toBe(10)
    expect(seriesBelow(0.99, 'E6')).toBe(0.68)
    expect(seriesNearest(96, 'E6')).toBe(100)
  })
  it('gives a preferred value for itself, whatever its decade', () => {
    for (const value of [0.0047, 0.47, 4.7, 47, 4700, 47e-6, 4.7e6]) {
      expect(seriesNearest(value, 'E12')).toBe(value)
      expect(seriesBelow(value, 'E12')).toBe(value)
      expect(seriesAbove(value, 'E12')).toBe(value)
    }
  })
  it('lists a range with both ends', () => {
    expect(seriesBetween(1000, 2200, 'E6')).toEqual([1000, 1500, 2200])
    expect(seriesBetween(4.7, 10, 'E6')).toEqual([4.7, 6.8, 10])
  })
  it('refuses what no series can hold', () => {
    expect(() => seriesNearest(0, 'E12')).toThrow('value is 0')
    expect(() => seriesNearest(Number.NaN, 'E12')).toThrow('NaN')
  })
})

describe('dividerPairs', () => {
  it('finds an exact pair where there is one', () => {
    // 12 V from a 2.5 V reference: (12 / 2.5 - 1) = 3.8; 3.9k over 1k is 2.1 % high, E24 holds no exact pair
    const best = dividerPairs(4.8, 'E24', 1000, 10000)[0]!
    expect(Math.abs(best.error)).toBeLessThan(0.004)
    expect(dividerPairs(2, 'E12', 1000, 9000)[0]!.error).toBe(0)
  })
  it('has no better pair in its range, by trying every one', () => {
    const [best] = dividerPairs(9.6, 'E24', 1000, 10000)
    const bottoms = seriesBetween(1000, 10000, 'E24')
    const tops = seriesBetween(1000, 1e6, 'E24')
    const least = Math.min(...bottoms.flatMap((b) => tops.map((t) => Math.abs((1 + t / b) / 9.6 - 1))))
    expect(Math.abs(best!.error)).toBeCloseTo(least, 12)
  })
  it('refuses a ratio of one and an empty range', () => {
    expect(() => dividerPairs(1, 'E24', 1000, 2000)).toThrow('divider ratio is 1')
    expect(() => dividerPairs(2, 'E6', 1600, 2000)).toThrow('no E6 value')
  })
})
