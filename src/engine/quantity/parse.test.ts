import { describe, expect, it } from 'vitest'
import { parseMains, parseQuantity, parseRange } from './parse.ts'
import type { Unit } from './unit.ts'

const value = (text: string, unit: Unit, bare?: string) => {
  const result = parseQuantity(text, unit, bare)
  return result.ok ? result.value : result.message
}

describe('parseQuantity', () => {
  const cases: readonly (readonly [text: string, unit: Unit, expected: number])[] = [
    ['4.7 mH', 'H', 4.7e-3],
    ['4m7', 'H', 4.7e-3],
    ['4m7H', 'H', 4.7e-3],
    ['910uH', 'H', 910e-6],
    ['0,6 mm', 'm', 0.6e-3],
    ['0.6', 'm', 0.6e-3],
    ['1.2 m', 'm', 1.2],
    ['5u', 'm', 5e-6],
    ['100k', 'ohm', 100e3],
    ['4K7', 'ohm', 4700],
    ['1R5', 'ohm', 1.5],
    ['1r5', 'ohm', 1.5],
    ['2k2', 'ohm', 2200],
    ['0R1', 'ohm', 0.1],
    ['R47', 'ohm', 0.47],
    ['2M2', 'ohm', 2.2e6],
    ['2 megohm', 'ohm', 2e6],
    ['10 kΩ', 'ohm', 10e3],
    ['22 mΩ', 'ohm', 22e-3],
    ['47uF', 'F', 47e-6],
    ['47 µF', 'F', 47e-6],
    ['47 μF', 'F', 47e-6],
    ['2n2', 'F', 2.2e-9],
    ['100n', 'F', 100e-9],
    ['1e-3', 'H', 1e-3],
    ['1,5E-3 H', 'H', 1.5e-3],
    ['10\u202f000 V', 'V', 10000],
    ['1.234,5', 'V', 1234.5],
    ['1,234.5 V', 'V', 1234.5],
    ['3V3', 'V', 3.3],
    ['3A15', 'A', 3.15],
    ['230VAC', 'Vrms', 230],
    ['-40 °C', 'C', -40],
    ['212 °F', 'C', 100],
    ['373.15 K', 'C', 100],
    ['20 %', 'fraction', 0.2],
    ['20%', '1', 0.2],
    ['0.2', 'fraction', 0.2],
    ['2.3k', '1', 2300],
    ['52 mm2', 'm2', 52e-6],
    ['0.52 cm²', 'm2', 52e-6],
    ['52', 'm2', 52e-6],
    ['2990 mm^3', 'm3', 2990e-9],
    ['13 thou', 'm', 13 * 25.4e-6],
    ['0.5 in', 'm', 12.7e-3],
    ['0.5"', 'm', 12.7e-3],
    ['3000 gauss', 'T', 0.3],
    ['3 kG', 'T', 0.3],
    ['300mT', 'T', 0.3],
    ['100 kHz', 'Hz', 100e3],
    ['12 A2s', 'A2s', 12],
    ['12 A²s', 'A2s', 12],
    ['85 mW/cm3', 'W/m3', 85e3],
    ['2.2 K/W', 'K/W', 2.2],
    ['50ppm/K', '1/K', 50e-6],
    ['63 turns', 'turns', 63],
    ['5000 h', 'h', 5000],
    ['.5 A', 'A', 0.5],
    ['−3 V', 'V', -3],
  ]
  it.each(cases)('reads %s as %s', (text, unit, expected) => {
    const got = value(text, unit)
    expect(got).toBeTypeOf('number')
    expect(got as number).toBeCloseTo(expected, 12)
    expect((got as number) / expected).toBeCloseTo(1, 12)
  })

  it('scales by powers of ten without rounding twice', () => {
    expect(value('4.7 mH', 'H')).toBe(0.0047)
    expect(value('17.55', 'm')).toBe(0.01755)
    expect(value('0.1 uF', 'F')).toBe(1e-7)
  })

  it('reads a number alone in the unit of its column', () => {
    expect(value('47', 'F', 'uF')).toBe(47e-6)
    expect(value('2n2', 'F', 'uF')).toBe(2.2e-9)
  })

  const refused: readonly (readonly [text: string, unit: Unit, part: string])[] = [
    ['', 'V', 'nothing is written'],
    ['twelve', 'V', 'does not begin with a number'],
    ['4.7 kg', 'H', 'kg is not its unit'],
    ['4.7 MH', 'H', 'MH is not its unit'],
    ['1R5', 'H', 'R5 is not its unit'],
    ['4m7', 'm', 'm7 is not its unit'],
    ['1,500 V', 'V', '1,500 can mean 1500 or 1.5'],
    ['20', 'fraction', 'a share is 0 to 1, or 20 %'],
    ['AWG 99', 'm', 'AWG runs from 0 to 50'],
    ['1e999 V', 'V', 'too large'],
    ['1.2.3', 'V', '1.2.3 is not a number'],
    ['NaN', 'V', 'does not begin with a number'],
    ['9'.repeat(100), 'V', 'too long'],
  ]
  it.each(refused)('refuses %s as %s', (text, unit, part) => {
    const result = parseQuantity(text, unit)
    expect(result.ok).toBe(false)
    if (result.ok) return
    expect(result.message).toContain(part)
    expect(result.expected).toContain('such as')
  })

  it('names what was typed and how to write it', () => {
    expect(value('4.7 kg', 'H')).toBe(
      '"4.7 kg" is not an inductance (kg is not its unit); write it as 4.7 mH',
    )
  })
})

describe('parseRange', () => {
  const range = (text: string, unit: Unit) => {
    const result = parseRange(text, unit)
    return result.ok ? [result.low, result.high] : result.message
  }
  it('reads ranges as people type them', () => {
    expect(range('85-265 V', 'Vrms')).toEqual([85, 265])
    expect(range('85 – 265', 'Vrms')).toEqual([85, 265])
    expect(range('85V..265V', 'Vrms')).toEqual([85, 265])
    expect(range('10 to 22 mH', 'H')).toEqual([10e-3, 22e-3])
    expect(range('1e-3-2e-3', 'H')).toEqual([1e-3, 2e-3])
    expect(range('0.4..0.6 mm', 'm')).toEqual([0.4e-3, 0.6e-3])
    expect(range('-40-125 °C', 'C')).toEqual([-40, 125])
    expect(range('900u - 1m', 'H')).toEqual([900e-6, 1e-3])
    expect(range('12 V', 'V')).toEqual([12, 12])
  })
  it('reads a value with a tolerance', () => {
    expect(range('230 V ±10 %', 'Vrms')).toEqual([207, 253])
    expect(range('230 +/- 10%', 'Vrms')).toEqual([207, 253])
    expect(range('230V±10%', 'Vrms')).toEqual([207, 253])
    expect(range('230 V ± 10 %', 'Vrms')).toEqual([207, 253])
    expect(range('230 V ±23 V', 'Vrms')).toEqual([207, 253])
    expect(range('200 V +10 % -6 %', 'Vrms')).toEqual([188, 220])
    expect(range('200 V -15/+10 %', 'Vrms')).toEqual([170, 220])
    expect(parseRange('12 V ±5 %', 'V')).toMatchObject({ ok: true, middle: 12 })
  })
  it('refuses what is upside down or no range', () => {
    expect(range('265-85 V', 'Vrms')).toContain('low end 265 is above its high end 85 V')
    expect(range('a-b', 'Vrms')).toContain('does not begin with a number')
    expect(range('230 V ±x', 'Vrms')).toContain('is not')
    expect(range('230 V +10 % +6 %', 'Vrms')).toContain('is not')
  })
})

describe('parseMains', () => {
  it('takes a voltage alone as nominal, within the 10 % of IEC 60038', () => {
    expect(parseMains('230 V')).toEqual({ ok: true, low: 207, high: 253, middle: 230 })
    expect(parseMains('120')).toEqual({ ok: true, low: 108, high: 132, middle: 120 })
  })
  it('takes a range or a tolerance as it is written', () => {
    expect(parseMains('85-265 V')).toEqual({ ok: true, low: 85, high: 265 })
    expect(parseMains('230 V ±6 %')).toMatchObject({ ok: true, low: 216.2, high: 243.8 })
    expect(parseMains('230 V ±0 %')).toEqual({ ok: true, low: 230, high: 230, middle: 230 })
    expect(parseMains('230-230 V')).toEqual({ ok: true, low: 230, high: 230 })
  })
  it('refuses what is no voltage', () => {
    expect(parseMains('mains').ok).toBe(false)
  })
})
