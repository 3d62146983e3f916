import type { Dimensions } from './dimensions.ts'

/**
 * Outside surface of core and coil taken as a box of the core's outline: A by full height by depth, the coil filling
 * the box. The coil heads that stand out over the depth are left out, which keeps the estimate on the warm side.
 */
export function outsideSurface(d: Dimensions, height_m: number): number {
  return 2 * (d.A_m * height_m + d.A_m * d.C_m + height_m * d.C_m)
}

/**
 * Thermal resistance from surface to still air, K/W: 0.08 K·m²/W over the outside surface, natural convection and
 * radiation at a rise near 40 K. Range: cores of 10 to 60 mm. Source: L. H. Dixon, Magnetics Design Handbook,
 * section 4 (800 K·cm²/W), from memory.
 */
export const thermalResistanceOfSurface = (surface_m2: number) => 0.08 / surface_m2

/**
 * The same from the effective volume: 53 K/W at 1 cm³, falling with volume to the power 0.54.
 * Source: S. A. Mulder, Loss formulas for power ferrites and their use in transformer design (1994), from memory.
 */
export const thermalResistanceOfVolume = (volume_m3: number) => 53 * (volume_m3 * 1e6) ** -0.54
