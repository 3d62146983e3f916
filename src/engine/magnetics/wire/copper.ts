/**
 * Annealed copper of 100 % conductivity (IACS): 17.241 nΩ·m at 20 °C, temperature coefficient 0.00393 per kelvin
 * referred to 20 °C. Source: IEC 60028.
 */
export const copperResistivity20_ohm_m = 1.7241e-8
const temperatureCoefficient_per_K = 0.00393

/** Permeability of free space (H/m); copper and air alike. */
export const vacuumPermeability_H_per_m = 4e-7 * Math.PI

/**
 * Resistivity of copper (Ω·m): ρ(T) = ρ20 [1 + 0.00393 (T − 20 °C)]. Valid from −60 to 250 °C within 1 %.
 * Source: IEC 60028.
 */
export const copperResistivity_ohm_m = (temperature_C: number): number =>
  copperResistivity20_ohm_m * (1 + temperatureCoefficient_per_K * (temperature_C - 20))

/** Factor by which a copper resistance measured at `from_C` changes at `to_C`. */
export const copperResistanceRatio = (from_C: number, to_C: number): number =>
  copperResistivity_ohm_m(to_C) / copperResistivity_ohm_m(from_C)
