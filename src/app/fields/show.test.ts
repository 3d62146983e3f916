import { describe, expect, it } from 'vitest'
import { fixedReadingInfo, readingInfo } from '../../engine/supply/reading.ts'
import { readMains, readRange, readValue } from './parse.ts'
import { show, showAbout, showPercent, showRange } from './show.ts'

const spaced = (text: string) => text.replace(/\s/g, ' ')

describe('show', () => {
  it('reads as people write values', () => {
    expect(spaced(show(910e-6, 'H'))).toBe('910 µH')
    expect(spaced(show(0.000256, 'm'))).toBe('0.256 mm')
    expect(spaced(show(4700, 'Ω'))).toBe('4.7 kΩ')
    expect(spaced(show(-0.0123, 'A'))).toBe('−12.3 mA')
    expect(spaced(show(5.5e6, 'A/m²'))).toBe('5.5 A/mm²')
    expect(spaced(show(104.4, '°C'))).toBe('104 °C')
    expect(spaced(show(2000, 'metre'))).toBe('2000 m')
    expect(show(0.1234, '')).toBe('0.123')
  })

  it('knows every unit in the tables of readings', () => {
    for (const { unit } of Object.values({ ...readingInfo, ...fixedReadingInfo }))
      expect(() => show(1.5, unit)).not.toThrow()
  })

  it('shows what is not a number as a dash, never as NaN', () => {
    expect(show(Number.NaN, 'V')).toBe('–')
    expect(showPercent(Number.NaN)).toBe('–')
  })

  it('shows ranges and percents', () => {
    expect(spaced(showRange(85, 265, 'V'))).toBe('85–265 V')
    expect(spaced(showRange(12, 12, 'V'))).toBe('12 V')
    expect(spaced(showPercent(-0.034))).toBe('−3.4 %')
    expect(spaced(showPercent(0.256))).toBe('26 %')
  })

  it('reads back what it shows', () => {
    expect(readValue(show(4700, 'Ω', 4), 'Ω')).toBe(4700)
    expect(readValue(show(0.000256, 'm', 4), 'm')).toBeCloseTo(0.000256, 12)
    expect(readValue('2000', 'metre')).toBe(2000)
    expect(readRange(showRange(85, 265, 'V'), 'V')).toMatchObject({ low: 85, high: 265 })
    expect(readValue(show(-12, '°C', 4), '°C')).toBe(-12)
  })
})

describe('an input range', () => {
  it('is shown about its nominal where it lies evenly about it, and reads back as it was', () => {
    expect(showAbout(207, 230, 253)).toBe('230\u00a0V ±10\u00a0%')
    expect(showAbout(230, 230, 230)).toBe('230\u00a0V ±0\u00a0%')
    expect(showAbout(195, 230, 253)).toBe('195–253\u00a0V')
    expect(readMains(showAbout(207, 230, 253))).toEqual({ low: 207, high: 253, middle: 230, ok: true })
    expect(readMains(showAbout(230, 230, 230))).toMatchObject({ low: 230, high: 230 })
  })
})
