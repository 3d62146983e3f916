import { describe, expect, it } from 'vitest'
import { show, showPercent, showRange } from './show.ts'

describe('show', () => {
  it('reads as people write values', () => {
    expect(show(910e-6, 'H')).toBe('910 µH')
    expect(show(0.000256, 'm')).toBe('0.256 mm')
    expect(show(12, 'V')).toBe('12 V')
    expect(show(4700, 'Ω')).toBe('4.7 kΩ')
    expect(show(999.7, 'V')).toBe('1 kV')
    expect(show(0, 'A')).toBe('0 A')
    expect(show(-0.0123, 'A')).toBe('−12.3 mA')
    expect(show(5.5e6, 'A/m²')).toBe('5.5 A/mm²')
    expect(show(104.4, '°C')).toBe('104 °C')
    expect(show(87600, 'h')).toBe('87 600 h')
    expect(show(0.1234, '')).toBe('0.123')
    expect(show(12.5, 'm')).toBe('12.5 m')
  })

  it('shows what is not a number as a dash, never as NaN', () => {
    expect(show(Number.NaN, 'V')).toBe('–')
    expect(showPercent(Number.NaN)).toBe('–')
  })

  it('shows ranges and percents', () => {
    expect(showRange(85, 265, 'V')).toBe('85–265 V')
    expect(showRange(12, 12, 'V')).toBe('12 V')
    expect(showPercent(-0.034)).toBe('−3.4 %')
    expect(showPercent(0.256)).toBe('26 %')
  })
})
