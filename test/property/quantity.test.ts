import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type ESeries,
  formatQuantity,
  parseQuantity,
  parseRange,
  seriesAbove,
  seriesBelow,
  seriesNearest,
  shifted,
  type Unit,
} from '../../src/engine/quantity/index.ts'

const seed = 20240611
const names: readonly Unit[] = [
  'V', 'A', 'ohm', 'F', 'H', 'm', 'm2', 'm3', 'W', 'W/m3', 'Hz', 's', 'h', 'T', 'A/m', 'A/s', 'C', 'K', 'K/W', 'J',
  'J/K', 'kg/m3', '1/K', 'fraction', 'turns', '1', 'A2s', 'ohm/m', 'W/K', 'Vrms', 'Vpp',
] // biome-ignore format: a list to read along
const unit = fc.constantFrom(...names)
/** Values over fourteen decades, as in the trade. */
const value = fc
  .tuple(
    fc.double({ min: 1, max: 10, maxExcluded: true, noNaN: true }),
    fc.integer({ min: -10, max: 4 }),
    fc.boolean(),
  )
  .map(([digits, decade, negative]) => (negative ? -1 : 1) * digits * 10 ** decade)

describe('quantities', () => {
  it('read back what was shown, to the digits shown', () => {
    fc.assert(
      fc.property(value, unit, fc.integer({ min: 3, max: 6 }), (v, u, digits) => {
        const result = parseQuantity(formatQuantity(v, u, digits), u)
        expect(result).toMatchObject({ ok: true })
        if (result.ok) expect(Math.abs(result.value / v - 1)).toBeLessThanOrEqual(0.5001 * 10 ** (1 - digits))
      }),
      { seed, numRuns: 2000 },
    )
  })

  it('read the same with comma or point, with or without spaces, in any power of ten', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99999 }), fc.integer({ min: 0, max: 4 }), (n, places) => {
        const text = (n / 10 ** places).toFixed(places)
        const point = parseQuantity(`${text}mH`, 'H')
        fc.pre(!/^[1-9]\d{0,2}\.\d{3}$/.test(text))
        for (const alike of [`${text.replace('.', ',')} mH`, `${text}\u202fmH`, `${text}e-3`, `${text}E3 uH`])
          expect(parseQuantity(alike, 'H')).toEqual(point)
      }),
      { seed },
    )
  })

  it('never give a number that is not finite, whatever is typed', () => {
    const text = fc.oneof(
      fc.string({ maxLength: 30, unit: 'binary' }),
      fc.string({ maxLength: 12, unit: fc.constantFrom(...'0123456789.,-+eEkKmMunpRVAHF%°C/ ²awgs"±') }),
    )
    fc.assert(
      fc.property(text, unit, (typed, u) => {
        const result = parseQuantity(typed, u)
        if (result.ok) expect(Number.isFinite(result.value)).toBe(true)
        else expect(result.message.length).toBeGreaterThan(10)
        const range = parseRange(typed, u)
        if (range.ok) expect(range.low).toBeLessThanOrEqual(range.high)
      }),
      { seed, numRuns: 4000 },
    )
  })

  it('read any range of two shown values', () => {
    fc.assert(
      fc.property(value, value, unit, (a, b, u) => {
        const [low, high] = a < b ? [a, b] : [b, a]
        const text = `${formatQuantity(low, u, 5)} .. ${formatQuantity(high, u, 5)}`
        expect(parseRange(text, u)).toMatchObject({ ok: true })
      }),
      { seed },
    )
  })

  it('move the decimal point without changing a bit', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: 1e-12, max: 1e9 }), (v) => {
        expect(parseQuantity(shifted(v, 3), 'm')).toEqual({ ok: true, value: v })
        expect(parseQuantity(shifted(v, 6), 'F', 'uF')).toEqual({ ok: true, value: v })
      }),
      { seed, numRuns: 2000 },
    )
  })

  it('find preferred values on the right side, within half a step', () => {
    const series = fc.constantFrom<ESeries>('E6', 'E12', 'E24', 'E48', 'E96', 'E192')
    fc.assert(
      fc.property(value.map(Math.abs), series, (v, name) => {
        const [below, nearest, above] = [seriesBelow(v, name), seriesNearest(v, name), seriesAbove(v, name)]
        expect(below).toBeLessThanOrEqual(v * (1 + 1e-9))
        expect(above).toBeGreaterThanOrEqual(v * (1 - 1e-9))
        expect([below, above]).toContain(nearest)
        expect(above / below).toBeLessThan(1.52)
      }),
      { seed },
    )
  })
})
