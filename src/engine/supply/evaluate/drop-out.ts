/**
 * Bulk voltage below which a stage cannot hold a power, V: where the duty of continuous mode meets the greatest
 * duty, or the current limit is reached, whichever comes first.
 *
 * Limit: with x = V D the stage draws x (Ilim - x/(2 L f)) = P, so x = L f (Ilim - sqrt(Ilim² - 2 P/(L f))) and
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
): number {
  const byDuty = (reflected_V * (1 - maximumDuty)) / maximumDuty
  const lf = inductance_H * frequency_Hz
  const root = limit_A * limit_A - (2 * power_W) / lf
  if (root <= 0) {
    // The limit does not carry the power in discontinuous mode at any voltage: only the continuous form remains.
    const x = lf * limit_A
    return x < reflected_V ? Math.max(byDuty, (x * reflected_V) / (reflected_V - x)) : Number.MAX_VALUE
  }
  const x = lf * (limit_A - Math.sqrt(root))
  return x < reflected_V ? Math.max(byDuty, (x * reflected_V) / (reflected_V - x)) : byDuty
}
