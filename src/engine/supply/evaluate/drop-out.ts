/**
 * Bulk voltage below which a stage cannot hold a power, V: where the duty of continuous mode meets the greatest
 * duty, or the current limit is reached, whichever comes first.
 *
 * Limit: with x = V D and D = 1 - x/Vor the limit that slope compensation s leaves is Ilim - s D/f, and the stage draws
 * x (Ilim - s D/f - x/(2 L f)) = P: a x² - b x + P = 0 with a = 1/(2 L f) - s/(f Vor) and b = Ilim - s/f. Then
 * V = x Vor/(Vor - x). Duty: V = Vor (1 - Dmax)/Dmax. When the limit cannot be reached below boundary the power needs
 * only the duty.
 */
export function dropOutBulk_V(
  reflected_V: number,
  inductance_H: number,
  frequency_Hz: number,
  limit_A: number,
  maximumDuty: number,
  power_W: number,
  slope_A_per_s = 0,
): number {
  const byDuty = (reflected_V * (1 - maximumDuty)) / maximumDuty
  const a = 0.5 / (inductance_H * frequency_Hz) - slope_A_per_s / (frequency_Hz * reflected_V)
  const b = limit_A - slope_A_per_s / frequency_Hz
  const root = b * b - 4 * a * power_W
  if (root <= 0) {
    // The limit does not carry the power in discontinuous mode at any voltage: only the continuous form remains.
    const x = b / (2 * a)
    return x > 0 && x < reflected_V
      ? Math.max(byDuty, (x * reflected_V) / (reflected_V - x))
      : Number.MAX_VALUE
  }
  const x = (2 * power_W) / (b + Math.sqrt(root))
  if (!(x > 0)) return Number.MAX_VALUE
  return x < reflected_V ? Math.max(byDuty, (x * reflected_V) / (reflected_V - x)) : byDuty
}
