import { copperResistivity_ohm_m, vacuumPermeability_H_per_m } from './copper.ts'

/**
 * Skin depth (m): δ = sqrt(ρ / (π f μ0)), the depth at which current density in a thick conductor has fallen to
 * 1/e. Zero frequency gives infinity. Source: any text on electromagnetism.
 */
export const skinDepth_m = (frequency_Hz: number, resistivity_ohm_m: number): number =>
  Math.sqrt(resistivity_ohm_m / (Math.PI * frequency_Hz * vacuumPermeability_H_per_m))

/** Skin depth of copper at a temperature (m). */
export const copperSkinDepth_m = (frequency_Hz: number, temperature_C: number): number =>
  skinDepth_m(frequency_Hz, copperResistivity_ohm_m(temperature_C))
