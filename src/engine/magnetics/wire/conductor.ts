import type { Wire } from '../../parts/part.ts'
import { copperResistivity_ohm_m } from './copper.ts'

/** Copper cross-section of one wire (m²): all strands of a bundle together. */
export const copperArea_m2 = (wire: Wire): number => {
  switch (wire.construction) {
    case 'foil':
      return wire.thickness_m * wire.width_m
    case 'litz':
      return (wire.strands * Math.PI * wire.strand_m ** 2) / 4
    default:
      return (Math.PI * wire.bare_m ** 2) / 4
  }
}

/** Height that one wire takes across the layer (m): overall diameter, or foil with the insulation wound with it. */
export const wireHeight_m = (wire: Wire): number =>
  wire.construction === 'foil' ? wire.thickness_m + wire.insulation_m : wire.overall_m

/** Width that one wire takes along the layer (m): overall diameter, or the width of the foil. */
export const wireWidth_m = (wire: Wire): number =>
  wire.construction === 'foil' ? wire.width_m : wire.overall_m

/** Diameter of the single conductor in which eddy currents flow (m): bare wire or one strand; foil: its thickness. */
export const conductorSize_m = (wire: Wire): number => {
  switch (wire.construction) {
    case 'foil':
      return wire.thickness_m
    case 'litz':
      return wire.strand_m
    default:
      return wire.bare_m
  }
}

/** Separate conductors in one wire: the strands of litz, else one. */
export const conductorCount = (wire: Wire): number => (wire.construction === 'litz' ? wire.strands : 1)

/** Thickness of insulation on one side of the copper (m). */
export const wireInsulation_m = (wire: Wire): number => {
  switch (wire.construction) {
    case 'foil':
      return wire.insulation_m
    case 'litz':
      return Math.max(0, (wire.overall_m - litzBundle_m(wire.strands, wire.strand_m)) / 2)
    default:
      return (wire.overall_m - wire.bare_m) / 2
  }
}

/**
 * Direct-current resistance of one metre of wire (Ω/m) at a temperature: R' = ρ(T) · lay / A. Litz strands run
 * longer than the bundle by its lay.
 */
export const dcResistance_ohm_per_m = (wire: Wire, temperature_C: number): number =>
  (copperResistivity_ohm_m(temperature_C) * (wire.construction === 'litz' ? wire.lay : 1)) /
  copperArea_m2(wire)

/**
 * Outside diameter of an unserved bundle of round strands (m): D = p · d · sqrt(n) with packing factor p, 1.155 for
 * usual bunched wire of few or many strands (makers give 1.25 for finest wire of 7 to 12 strands, 1.16 to 1.28
 * otherwise). Accuracy 5 to 8 %. Source: maker's litz tables; common practice.
 */
export const litzBundle_m = (strands: number, strandOverall_m: number): number =>
  (strands <= 12 ? 1.25 : strands <= 25 ? 1.26 : 1.28) * Math.sqrt(strands) * strandOverall_m
