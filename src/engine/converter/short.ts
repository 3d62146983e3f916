/** Resistance of a short at the end of its leads, seen by the secondary; common practice, no source. */
const leads_ohm = 0.02

/**
 * Peak primary current that a shorted output leads to, A.
 *
 * Each cycle the current rises for at least the shortest on-time and falls only against the rectifier drop, the
 * resistance of secondary and leads, and what the leakage takes (half of Llk I). Above the limit it climbs until the
 * fall makes up for the rise: Vbulk tmin = n (Vf + n I Rs) (T - tmin) + Llk I / 2. The greater of that and the limit
 * is reached. Derived here; valid for a fixed frequency: a chip that slows down in a short is easier on its switch.
 */
export function shortPeak_A(
  bulk_V: number,
  minimumOnTime_s: number,
  frequency_Hz: number,
  turnsRatio: number,
  rectifierDrop_V: number,
  secondaryResistance_ohm: number,
  leakage_H: number,
  limitPeak_A: number,
): number {
  const off_s = 1 / frequency_Hz - minimumOnTime_s
  const rise_Vs = bulk_V * minimumOnTime_s - turnsRatio * rectifierDrop_V * off_s
  const fall_Vs_per_A =
    turnsRatio * turnsRatio * (secondaryResistance_ohm + leads_ohm) * off_s + 0.5 * leakage_H
  return Math.max(limitPeak_A, rise_Vs / fall_Vs_per_A)
}
