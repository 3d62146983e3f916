import { describe, expect, it } from 'vitest'
import { formatQuantity, formatRange } from './format.ts'
import type { Unit } from './unit.ts'

const show = (value: number, unit: Unit, digits?: number) =>
  formatQuantity(value, unit, digits).replace('\u202f', ' ')

describe('formatQuantity', () => {
  const cases: readonly (readonly [value: number, unit: Unit, shown: string])[] = [
    [910e-6, 'H', '910 µH'],
    [1.234e-3, 'H', '1.23 mH'],
    [12, 'V', '12 V'],
    [374.7, 'V', '375 V'],
    [999.96, 'V', '1 kV'],
    [0.256e-3, 'm', '0.256 mm'],
    [25e-6, 'm', '0.025 mm'],
    [4e-6, 'm', '4 µm'],
    [3.456, 'm', '3.46 m'],
    [52e-6, 'm2', '52 mm²'],
    [5470e-9, 'm3', '5470 mm³'],
    [4700e-6, 'F', '4700 µF'],
    [2.2e-9, 'F', '2.2 nF'],
    [22e-3, 'ohm', '22 mΩ'],
    [4700, 'ohm', '4.7 kΩ'],
    [0.284, 'T', '284 mT'],
    [104.6, 'C', '105 °C'],
    [-40, 'C', '-40 °C'],
    [1500, 'K', '1500 K'],
    [0.824, 'fraction', '82.4 %'],
    [1234, 'turns', '1234 turns'],
    [100e3, 'Hz', '100 kHz'],
    [0, 'A', '0 A'],
    [0, '1', '0'],
    [2300, '1', '2300'],
    [50e-6, '1/K', '50 ppm/K'],
    [Number.NaN, 'V', '–'],
  ]
  it.each(cases)('shows %s %s as %s', (value, unit, shown) => {
    expect(show(value, unit)).toBe(shown)
  })
  it('shows as many digits as asked', () => {
    expect(show(1.23456e-3, 'H', 4)).toBe('1.235 mH')
    expect(show(1.23456e-3, 'H', 2)).toBe('1.2 mH')
  })
})

describe('formatRange', () => {
  it('gives the unit once when both ends share it', () => {
    expect(formatRange(85, 265, 'Vrms').replaceAll('\u202f', ' ')).toBe('85–265 V')
    expect(formatRange(900e-6, 1.1e-3, 'H').replaceAll('\u202f', ' ')).toBe('0.9–1.1 mH')
    expect(formatRange(964e-6, 1.15e-3, 'H').replaceAll('\u202f', ' ')).toBe('0.964–1.15 mH')
    expect(formatRange(0, 1.15e-3, 'H').replaceAll('\u202f', ' ')).toBe('0–1.15 mH')
    expect(formatRange(1e-6, 2e-3, 'H').replaceAll('\u202f', ' ')).toBe('1 µH – 2 mH')
    expect(formatRange(12, 12, 'V').replaceAll('\u202f', ' ')).toBe('12 V')
  })
})
