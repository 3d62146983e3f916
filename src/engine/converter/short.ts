/**
 * Peak primary current that a shorted output leads to, A.
 *
 * Each cycle the current rises for at least the shortest on-time and falls only against the rectifier drop and the
 * resistance of the secondary. Above the limit it climbs until the fall makes up for the rise:
 * Vbulk tmin = n (Vf + n I Rs) (T - tmin). The greater of that and the limit is reached.
 */
export function shortPeak_A(
  bulk_V: number,
  minimumOnTime_s: number,
  frequency_Hz: number,
  turnsRatio: number,
  rectifierDrop_V: number,
  secondaryResistance_ohm: number,
  limitPeak_A: number,
): number {
  const off_s = 1 / frequency_Hz - minimumOnTime_s
  const balance = (bulk_V * minimumOnTime_s) / off_s / turnsRatio - rectifierDrop_V
  const climb = balance / (turnsRatio * Math.max(1e-4, secondaryResistance_ohm))
  return Math.max(limitPeak_A, climb)
}
