import type { Design } from '../design.ts'

/** Quality of the ring of leakage and drain capacitance, between what coils of this size show; common practice, no source. */
const quality = { least: 4, most: 20 }

/** No coil damps the ring of its leakage more than this leaves. */
export const leastRingQuality = quality.least

/**
 * Resistance across the whole leakage, at the primary: takes out of its ring with the drain capacitance what skin
 * and proximity loss take at that frequency, (w L)²/R(w). R is that of the sixteenth harmonic for opposing
 * ampere-turns, carried on with the square root of frequency.
 */
export function leakageDamping_ohm(
  d: Pick<Design, 'transformer'>,
  frequency_Hz: number,
  leakage_H: number,
  drain_F: number,
): number {
  const { primary_ohm, secondary_ohm, mutual_ohm } = d.transformer.coil.excess
  const n = d.transformer.turnsRatio
  const known = primary_ohm.length
  const at = known - 1
  const excess_ohm = Math.max(1e-3, primary_ohm[at]! - 2 * n * mutual_ohm[at]! + n * n * secondary_ohm[at]!)
  const ring = 1 / Math.sqrt(leakage_H * drain_F)
  const ring_ohm = excess_ohm * Math.sqrt(ring / (2 * Math.PI * frequency_Hz * known))
  const impedance_ohm = ring * leakage_H
  return impedance_ohm * Math.min(quality.most, Math.max(quality.least, impedance_ohm / ring_ohm))
}
