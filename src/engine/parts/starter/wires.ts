import type { Wire } from '../part.ts'
import { enamelledOverall_m, preferredR20_mm, preferredR40Between_mm } from './enamel.ts'
import { mm, rounded } from './units.ts'

type WireOf<C extends Wire['construction']> = Extract<Wire, { construction: C }>

const enamelledSource = 'IEC 60317-0-1 table 1, from memory'
const typical = 'typical of the trade, no source'

/**
 * Enamelled round wire of any bare diameter from 0.02 to 2.5 mm, with the greatest overall diameter of its grade.
 * Throws a RangeError for other diameters.
 */
export function enamelledWire(bare_m: number, grade: 1 | 2): WireOf<'enamelled'> {
  const bare_mm = rounded(bare_m * 1e3, 4)
  return {
    id: `wire-${bare_mm}mm-grade-${grade}`,
    kind: 'wire',
    construction: 'enamelled',
    name: `Enamelled wire ${bare_mm} mm, grade ${grade}`,
    source: enamelledSource,
    bare_m,
    grade,
    overall_m: enamelledOverall_m(bare_m, grade),
    temperature_C: 155,
  }
}

/** Packing factor of a bunched litz by its number of strands (printed beside makers' litz tables). */
const packing = (strands: number) => {
  if (strands <= 12) return 1.25
  if (strands <= 16) return 1.26
  if (strands <= 20) return 1.27
  return 1.28
}

/**
 * Greatest overall diameter of an unserved litz bundle of grade 1 strands: `p * sqrt(n) * d`, with d the greatest
 * overall diameter of a strand and p 1.25 to 1.28. Valid for bunches of 3 to about 400 strands.
 * Source: form and factors of makers' litz tables, checked against a published table of 0.020 mm strands.
 */
export const litzOverall_m = (strands: number, strand_m: number) =>
  packing(strands) * Math.sqrt(strands) * enamelledOverall_m(strand_m, 1)

/** Unserved litz of grade 1 strands. */
export function litzWire(strands: number, strand_m: number): WireOf<'litz'> {
  const strand_mm = rounded(strand_m * 1e3, 4)
  return {
    id: `litz-${strands}x${strand_mm}mm`,
    kind: 'wire',
    construction: 'litz',
    name: `Litz ${strands} x ${strand_mm} mm`,
    source: 'strands IEC 60317-0-1 grade 1, from memory; bundle by packing factor, common practice',
    strands,
    strand_m,
    overall_m: rounded(litzOverall_m(strands, strand_m), 3),
    lay: 1.02,
    temperature_C: 155,
  }
}

const tripleInsulatedWire = (bare_mm: number): WireOf<'triple-insulated'> => ({
  id: `wire-${bare_mm}mm-triple`,
  kind: 'wire',
  construction: 'triple-insulated',
  name: `Triple-insulated wire ${bare_mm} mm`,
  note: 'Three layers, each able to stand the test voltage of its class; 0.1 mm of insulation all round.',
  source: typical,
  bare_m: mm(bare_mm),
  overall_m: mm(rounded(bare_mm + 0.2, 4)),
  insulation: 'reinforced',
  temperature_C: 130,
})

const foilStrip = (thickness_mm: number, width_mm: number): WireOf<'foil'> => ({
  id: `foil-${thickness_mm}x${width_mm}mm`,
  kind: 'wire',
  construction: 'foil',
  name: `Copper foil ${thickness_mm} x ${width_mm} mm with film`,
  source: typical,
  thickness_m: mm(thickness_mm),
  width_m: mm(width_mm),
  insulation_m: mm(0.05),
  temperature_C: 130,
})

const litzMakes: readonly (readonly [strand_mm: number, strands: readonly number[]])[] = [
  [0.05, [20, 40, 60, 100, 150, 200, 300]],
  [0.071, [10, 15, 20, 30, 45, 60, 90, 120, 180, 270]],
  [0.1, [5, 7, 10, 15, 20, 30, 40, 60, 80, 100, 140, 200, 300]],
  [0.2, [5, 7, 10, 15, 20, 30, 40, 60]],
]

const inRange = (diameter_mm: number) => diameter_mm >= 0.05 && diameter_mm <= 2
const enamelledSizes_mm = [...preferredR20_mm.filter(inRange), ...preferredR40Between_mm].sort(
  (a, b) => a - b,
)

export const starterWires: readonly Wire[] = [
  ...enamelledSizes_mm.map((d) => enamelledWire(mm(d), 1)),
  ...enamelledSizes_mm.map((d) => enamelledWire(mm(d), 2)),
  ...litzMakes.flatMap(([strand_mm, counts]) => counts.map((n) => litzWire(n, mm(strand_mm)))),
  ...[0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1].map(
    tripleInsulatedWire,
  ),
  ...[0.05, 0.1, 0.15, 0.2, 0.3].flatMap((t) => [8, 12, 16, 20, 25].map((w) => foilStrip(t, w))),
]
