/** Reflected voltage from whole turns: (Vout + Vf) Np / Ns, V. */
export const reflectedVoltage_V = (
  output_V: number,
  rectifierDrop_V: number,
  primaryTurns: number,
  secondaryTurns: number,
): number => ((output_V + rectifierDrop_V) * primaryTurns) / secondaryTurns

/**
 * Primary inductance that gives a wanted ripple-to-peak ratio K in continuous mode at a mean current:
 * L = Von D / (f ΔI) with ΔI = K Ipk and Ipk = Iavg / (D (1 - K/2)), H.
 */
export function inductanceForRipple_H(
  on_V: number,
  reflected_V: number,
  average_A: number,
  frequency_Hz: number,
  rippleRatio: number,
): number {
  const duty = reflected_V / (reflected_V + on_V)
  const peak = average_A / (duty * (1 - 0.5 * rippleRatio))
  return (on_V * duty) / (frequency_Hz * rippleRatio * peak)
}

/** Least whole number of primary turns that keeps a flux at a peak current: N = L I / (B A). */
export const turnsForFlux = (inductance_H: number, peak_A: number, flux_T: number, area_m2: number): number =>
  (inductance_H * peak_A) / (flux_T * area_m2)

/** Flux density of a winding, B = L I / (N A), T. */
export const fluxDensity_T = (
  inductance_H: number,
  current_A: number,
  turns: number,
  area_m2: number,
): number => (inductance_H * current_A) / (turns * area_m2)

/** Voltage of a winding by its share of turns, less the drop of its rectifier, V. */
export const railVoltage_V = (
  output_V: number,
  rectifierDrop_V: number,
  secondaryTurns: number,
  railTurns: number,
  railDrop_V: number,
): number => ((output_V + rectifierDrop_V) * railTurns) / secondaryTurns - railDrop_V

/** Primary and secondary in series, dots in line: L (1 + Ns/Np)², H. Perfect coupling assumed. */
export const aidingInductance_H = (inductance_H: number, turnsRatio: number): number =>
  inductance_H * (1 + 1 / turnsRatio) ** 2

/** Primary and secondary in series, dots against: L (1 - Ns/Np)², H. Perfect coupling assumed. */
export const opposingInductance_H = (inductance_H: number, turnsRatio: number): number =>
  inductance_H * (1 - 1 / turnsRatio) ** 2
