/** Power in the leakage inductance alone: Llk Ip² f / 2, W. */
export const leakagePower_W = (leakage_H: number, peak_A: number, rate_Hz: number): number =>
  0.5 * leakage_H * peak_A * peak_A * rate_Hz

/**
 * Clamp loss at a clamp voltage Vc above the bulk: Llk Ip² f/2 · Vc/(Vc - Vor), W.
 *
 * While the leakage current runs down against Vc - Vor, the reflected voltage drives the same current into the
 * clamp: of each Vc taken, Vor comes from the magnetising inductance. Diverges as Vc meets Vor; valid above it.
 * Derived from d i/dt = -(Vc - Vor)/Llk and E = Vc ∫ i dt.
 */
export const clampPower_W = (leakagePower: number, clamp_V: number, reflected_V: number): number =>
  (leakagePower * clamp_V) / (clamp_V - reflected_V)

/**
 * Voltage at which a resistor-capacitor clamp settles, V: Vc²/R = Pl Vc/(Vc - Vor), so that
 * Vc = Vor/2 + sqrt(Vor²/4 + R Pl).
 */
export const settledClamp_V = (leakagePower: number, resistor_ohm: number, reflected_V: number): number =>
  0.5 * reflected_V + Math.sqrt(0.25 * reflected_V * reflected_V + resistor_ohm * leakagePower)

/** Resistor which settles the clamp at Vc: R = Vc (Vc - Vor)/Pl, Ω. */
export const clampResistor_ohm = (leakagePower: number, clamp_V: number, reflected_V: number): number =>
  (clamp_V * (clamp_V - reflected_V)) / leakagePower

/** Voltage of an avalanche device at a peak current, between breakdown and its rated pulse, V. */
export const avalancheVoltage_V = (
  breakdown_V: number,
  clampVoltage_V: number,
  clampCurrent_A: number,
  peak_A: number,
): number => breakdown_V + (Math.max(0, clampVoltage_V - breakdown_V) * peak_A) / clampCurrent_A
