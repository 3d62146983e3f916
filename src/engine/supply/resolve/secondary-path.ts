import type { Spread } from '../../quantity/spread.ts'
import type { LeakageStar } from './leakage-star.ts'

/**
 * Inductance of the way from the secondary's pins through rectifier and track to the first capacitor and back: a loop of
 * some 2 cm, its rectifier's leads the half of it; common practice, no source. A meter that shorts the secondary at its
 * pins does not see it.
 */
export const track_H = 15e-9
/** Inductance of one electrolytic or polymer can with its leads and track; common practice, no source. */
export const can_H = 10e-9

/** That way as the primary sees it, H: few turns on a low output make it as large as the leakage of the coil. */
export const trackAtPrimary_H = (turnsRatio: number): number => turnsRatio * turnsRatio * track_H

/** Leads of the first capacitors as the primary sees them, H: the end of that way, which a solved circuit has apart. */
export const leadsAtPrimary_H = (turnsRatio: number, outputCount: number): number =>
  (turnsRatio * turnsRatio * can_H) / outputCount

/** What hands the current over: the leakage that a meter reads, and the way beyond the pins. */
export function handoverLeakage_H(leakage_H: Spread, turnsRatio: number): Spread {
  const added_H = trackAtPrimary_H(turnsRatio)
  return {
    minimum: leakage_H.minimum + added_H,
    typical: leakage_H.typical + added_H,
    maximum: leakage_H.maximum + added_H,
  }
}

/** The shares of a star once the way beyond the pins, all of it the secondary's own, is part of the whole. */
export function starWithTrack(star: LeakageStar, leakage_H: number, turnsRatio: number): LeakageStar {
  const added_H = trackAtPrimary_H(turnsRatio)
  const whole_H = leakage_H + added_H
  if (!(whole_H > 0)) return star
  return {
    secondaryShare: (star.secondaryShare * leakage_H + added_H) / whole_H,
    biasShare: (star.biasShare * leakage_H) / whole_H,
  }
}
