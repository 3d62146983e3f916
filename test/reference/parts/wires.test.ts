import { describe, expect, it } from 'vitest'
import {
  enamelledOverall_m,
  enamelledWire,
  litzOverall_m,
  litzWire,
  part,
  partsOfKind,
  starterDrawer,
} from '../../../src/engine/parts/index.ts'
import { parseQuantity } from '../../../src/engine/quantity/index.ts'
import published from './published.json' with { type: 'json' }

const wires = partsOfKind(starterDrawer, 'wire')
const enamelled = wires.filter((wire) => wire.construction === 'enamelled')
const read = (text: string, unit: 'm' | 'm2') => {
  const result = parseQuantity(text, unit)
  return result.ok ? result.value : Number.NaN
}

describe('wire gauges', () => {
  // 0.3 %: four digits of the table
  it.each(published.awg)('AWG $size has the diameter and area of ASTM B258, however it is typed', (row) => {
    for (const text of [`AWG ${row.size}`, `${row.size} AWG`, `awg${row.size}`]) {
      expect(Math.abs((read(text, 'm') * 1e3) / row.diameter_mm - 1)).toBeLessThan(0.003)
      expect(Math.abs((read(text, 'm2') * 1e6) / row.area_mm2 - 1)).toBeLessThan(0.003)
    }
  })

  it.each(published.swg)('SWG $size has the diameter of BS 3737', (row) => {
    expect(read(`${row.size} swg`, 'm') * 1e3).toBeCloseTo(row.diameter_mm, 3)
  })

  it('gives one area for one wire in millimetres, AWG or SWG', () => {
    const bare_m = read('28 awg', 'm')
    expect(read(`${bare_m * 1e3} mm`, 'm')).toBeCloseTo(bare_m, 12)
    expect(read('28 awg', 'm2')).toBeCloseTo((Math.PI / 4) * bare_m ** 2, 15)
    expect(read('30 swg', 'm')).toBeCloseTo(0.315e-3, 6)
  })
})

describe('enamelled wire', () => {
  it.each(published.enamel)('$bare_mm mm has the overall diameters of IEC 60317-0-1', (row) => {
    const bare_m = row.bare_mm / 1e3
    expect(enamelledOverall_m(bare_m, 1) * 1e3).toBeCloseTo(row.grade1_mm, 6)
    expect(enamelledOverall_m(bare_m, 2) * 1e3).toBeCloseTo(row.grade2_mm, 6)
    const mine = enamelled.filter((wire) => Math.abs(wire.bare_m - bare_m) < 1e-9)
    expect(mine.map((wire) => wire.overall_m * 1e3)).toEqual([
      expect.closeTo(row.grade1_mm, 6),
      expect.closeTo(row.grade2_mm, 6),
    ])
  })

  it('takes the increase of the next larger R20 diameter between two of them (IEC 60317-0-1)', () => {
    // printed for the R40 diameters 0.300 and 0.475 mm, from memory
    expect(enamelledOverall_m(0.3e-3, 1) * 1e3).toBeCloseTo(0.334, 6)
    expect(enamelledOverall_m(0.3e-3, 2) * 1e3).toBeCloseTo(0.352, 6)
    expect(enamelledOverall_m(0.475e-3, 1) * 1e3).toBeCloseTo(0.519, 6)
  })

  it('grows with diameter and grade, and is refused outside its table', () => {
    for (const grade of [1, 2] as const) {
      const series = enamelled.filter((wire) => wire.grade === grade)
      expect(series.length).toBeGreaterThan(50)
      for (const [i, wire] of series.entries()) {
        expect(wire.overall_m).toBeGreaterThan(wire.bare_m)
        if (i > 0) expect(wire.overall_m).toBeGreaterThan(series[i - 1]!.overall_m)
      }
    }
    expect(enamelledOverall_m(0.5e-3, 2)).toBeGreaterThan(enamelledOverall_m(0.5e-3, 1))
    expect(() => enamelledOverall_m(3e-3, 1)).toThrow('outside 0.02 to 2.5 mm')
  })

  it('covers R20 from 0.05 to 2 mm: neighbours are 10^(1/20) apart (ISO 3; 3 %: rounding of preferred numbers)', () => {
    const bare = [...new Set(enamelled.map((wire) => wire.bare_m * 1e3))].sort((a, b) => a - b)
    expect(bare[0]).toBeCloseTo(0.05, 9)
    expect(bare[bare.length - 1]).toBeCloseTo(2, 9)
    for (let i = 0; i <= 32; i++) {
      const wanted = 0.05 * 10 ** (i / 20)
      expect(Math.min(...bare.map((d) => Math.abs(d / wanted - 1)))).toBeLessThan(0.03)
    }
  })
})

describe('a wire that is not in the drawer', () => {
  it('is made from any gauge, its overall diameter apart from its bare one', () => {
    const bare_m = read('AWG 28', 'm')
    const wire = enamelledWire(bare_m, 2)
    expect(part.parse(wire)).toEqual(wire)
    expect(wire).toMatchObject({ id: 'wire-0.3211mm-grade-2', bare_m })
    // between the printed grade 2 wires of 0.315 mm (0.367) and 0.355 mm (0.411): IEC 60317-0-1, from memory
    expect(wire.overall_m).toBeGreaterThan(0.367e-3)
    expect(wire.overall_m).toBeLessThan(0.411e-3)
    const litz = litzWire(25, read('AWG 40', 'm'))
    expect(part.parse(litz)).toEqual(litz)
    expect(litz.overall_m).toBeGreaterThan(5 * read('AWG 40', 'm'))
  })
})

describe('litz', () => {
  it.each(published.litz)('$strands x $strand_mm mm has the overall diameter of the table', (row) => {
    const overall_mm = litzOverall_m(row.strands, row.strand_mm / 1e3) * 1e3
    // the greatest overall diameter lies at the upper end of the printed range; 0.5 %: three printed digits
    expect(overall_mm).toBeGreaterThan(row.overall_mm[0]!)
    expect(overall_mm / row.overall_mm[1]!).toBeCloseTo(1, 2)
    // 2 %: the table prints two digits of area
    const area_mm2 = (row.strands * Math.PI * row.strand_mm ** 2) / 4
    expect(Math.abs(area_mm2 / row.area_mm2 - 1)).toBeLessThan(0.02)
  })

  it('holds its strands: the bundle is wider than their tightest packing', () => {
    const bundles = wires.filter((wire) => wire.construction === 'litz')
    expect(bundles.length).toBeGreaterThan(20)
    for (const litz of bundles) {
      const strand_m = enamelledOverall_m(litz.strand_m, 1)
      const fill = (litz.strands * strand_m ** 2) / litz.overall_m ** 2
      expect(fill, litz.id).toBeLessThan(0.9069)
      expect(fill, litz.id).toBeGreaterThan(0.5)
    }
  })
})
