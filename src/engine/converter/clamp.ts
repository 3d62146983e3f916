/** Power in the leakage inductance alone: Llk Ip² f / 2, W. */
export const leakagePower_W = (leakage_H: number, peak_A: number, rate_Hz: number): number =>
  0.5 * leakage_H * peak_A * peak_A * rate_Hz

/**
 * Clamp loss at a clamp voltage Vc above the bulk: (P - Cd x² f/2) Vc/x - j Vc with x = Vc - Vor, W; `swing_S` is Cd f, j what a
 * bias winding takes out of the clamp's current.
 *
 * The leakage first lifts the drain from the reflected voltage to the clamp, which takes Cd x²/2. While the rest of its
 * current runs down against x, the reflected voltage drives the same current into the clamp: of each Vc taken, Vor comes
 * from the magnetising inductance. Diverges as Vc meets Vor; valid above it; none where the drain stays below the clamp.
 * Derived from d i/dt = -(Vc - Vor)/Llk and E = Vc ∫ i dt.
 */
export function clampPower_W(
  leakagePower: number,
  clamp_V: number,
  reflected_V: number,
  swing_S = 0,
  drawn_A = 0,
): number {
  const over_V = clamp_V - reflected_V
  const left_W = Math.max(0, leakagePower - 0.5 * swing_S * over_V * over_V)
  return Math.max(0, left_W / over_V - drawn_A) * clamp_V
}

/**
 * Voltage at which a resistor-capacitor clamp settles, V: Vc²/R = (P - Cd x² f/2) Vc/x - j Vc with Vc = Vor + x and j what a
 * bias winding takes out of its current, which is k x² + (Vor + R j) x = R P with k = 1 + R Cd f/2.
 */
export function settledClamp_V(
  leakagePower: number,
  resistor_ohm: number,
  reflected_V: number,
  swing_S = 0,
  drawn_A = 0,
): number {
  const k = 1 + 0.5 * resistor_ohm * swing_S
  const half = 0.5 * (reflected_V + resistor_ohm * drawn_A)
  return reflected_V + (Math.sqrt(half * half + k * resistor_ohm * leakagePower) - half) / k
}

/** Resistor which settles the clamp at Vc: R = Vc x/(P - Cd x² f/2), Ω; infinite where the drain stays below Vc. */
export function clampResistor_ohm(
  leakagePower: number,
  clamp_V: number,
  reflected_V: number,
  swing_S = 0,
): number {
  const over_V = clamp_V - reflected_V
  const left_W = leakagePower - 0.5 * swing_S * over_V * over_V
  return left_W > 0 ? (clamp_V * over_V) / left_W : Number.POSITIVE_INFINITY
}

/** How far over the reflected voltage the leakage alone can lift the drain: I sqrt(Llk/Cd), V. */
export const freeSwing_V = (handed_A: number, leakage_H: number, drain_F: number): number =>
  handed_A * Math.sqrt(leakage_H / drain_F)

/** Voltage of an avalanche device at a peak current, between breakdown and its rated pulse, V. */
export const avalancheVoltage_V = (
  breakdown_V: number,
  clampVoltage_V: number,
  clampCurrent_A: number,
  peak_A: number,
): number => breakdown_V + (Math.max(0, clampVoltage_V - breakdown_V) * peak_A) / clampCurrent_A
