/** Impedance of a capacitor with series resistance at a frequency, real and imaginary, ohm. */
interface Impedance {
  readonly real: number
  readonly imaginary: number
}

const capacitorImpedance = (
  capacitance_F: number,
  resistance_ohm: number,
  frequency_Hz: number,
): Impedance => ({
  real: resistance_ohm,
  imaginary: -1 / (2 * Math.PI * frequency_Hz * capacitance_F),
})

/**
 * Peak-to-peak ripple of the first output capacitor, V: the step of the peak current across its resistance, and the
 * charge that it gives to the load while the rectifier is off: Isp R + Iout (1 - Ds)/(f C).
 */
export const firstRipple_Vpp = (
  secondaryPeak_A: number,
  output_A: number,
  secondaryDuty: number,
  rate_Hz: number,
  capacitance_F: number,
  resistance_ohm: number,
): number => secondaryPeak_A * resistance_ohm + (output_A * (1 - secondaryDuty)) / (rate_Hz * capacitance_F)

/**
 * What a choke and second capacitor leave of a ripple at its fundamental: |Z2| / |Z2 + R + j ω L|, never above 1
 * away from their resonance, which must lie well below the frequency.
 */
export function filterGain(
  inductance_H: number,
  resistance_ohm: number,
  capacitance_F: number,
  capacitorResistance_ohm: number,
  frequency_Hz: number,
): number {
  const z = capacitorImpedance(capacitance_F, capacitorResistance_ohm, frequency_Hz)
  const reactance = 2 * Math.PI * frequency_Hz * inductance_H + z.imaginary
  return Math.hypot(z.real, z.imaginary) / Math.hypot(z.real + resistance_ohm, reactance)
}
