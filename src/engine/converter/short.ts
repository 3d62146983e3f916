/** Resistance of a short at the end of its leads, seen by the secondary; common practice, no source. */
const leads_ohm = 0.02

/**
 * Peak primary current that a shorted output leads to, A.
 *
 * Each cycle the current rises for at least the shortest on-time and falls only against the rectifier drop, the
 * resistance of secondary and leads, and what the leakage takes (half of Llk I). Above the limit it climbs until the
 * fall makes up for the rise: Vbulk tmin = n (Vf + n I Rs) (T - tmin) + Llk I / 2. The greater of that and the limit
 * is reached. A chip that skips pulses while it finds the current above its limit starts no pulse from above it: at
 * most one shortest on-time comes on top, Ilim + Vbulk tmin/L. Derived here; the core is taken as not saturating.
 */
export function shortPeak_A(s: {
  readonly bulk_V: number
  readonly minimumOnTime_s: number
  readonly frequency_Hz: number
  readonly turnsRatio: number
  readonly rectifierDrop_V: number
  readonly secondaryResistance_ohm: number
  readonly inductance_H: number
  readonly leakage_H: number
  readonly limitPeak_A: number
  readonly skipsPulses: boolean
}): number {
  const off_s = 1 / s.frequency_Hz - s.minimumOnTime_s
  const rise_Vs = s.bulk_V * s.minimumOnTime_s - s.turnsRatio * s.rectifierDrop_V * off_s
  const fall_Vs_per_A =
    s.turnsRatio * s.turnsRatio * (s.secondaryResistance_ohm + leads_ohm) * off_s + 0.5 * s.leakage_H
  const climbed_A = Math.max(s.limitPeak_A, rise_Vs / fall_Vs_per_A)
  return s.skipsPulses
    ? Math.min(climbed_A, s.limitPeak_A + (s.bulk_V * s.minimumOnTime_s) / s.inductance_H)
    : climbed_A
}
