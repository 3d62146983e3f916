/**
 * One-dimensional eddy-current functions of a foil of thickness h = ξ δ in a field along its face.
 * Skin part: R_ac/R_dc of the sheet's own current with field ±K/2 on its faces,
 * F = (ξ/2) (sinh ξ + sin ξ)/(cosh ξ − cos ξ).
 */
export const sheetSkinFactor = (xi: number): number => {
  if (xi < 0.02) return 1 + xi ** 4 / 180
  if (xi > 40) return xi / 2
  return ((xi / 2) * (Math.sinh(xi) + Math.sin(xi))) / (Math.cosh(xi) - Math.cos(xi))
}

/**
 * Proximity part: loss per area of a sheet in a mean face field H (peak) is (ρ/h) · G · H² / 2 with
 * G = 2 ξ (sinh ξ − sin ξ)/(cosh ξ + cos ξ), which starts as ξ⁴/3.
 */
export const sheetProximityFactor = (xi: number): number => {
  if (xi < 0.02) return xi ** 4 / 3
  if (xi > 40) return 2 * xi
  return (2 * xi * (Math.sinh(xi) - Math.sin(xi))) / (Math.cosh(xi) + Math.cos(xi))
}

/**
 * Dowell's R_ac/R_dc of m layers in series, field zero on one side of the pack:
 * F = F_skin + (m² − 1)/3 · G/… written out: each layer p has mean field (p − ½) of its own current, so
 * F = F_skin(ξ) + G(ξ) (m²/3 − 1/12). Whole and half layers alike. Source: P. L. Dowell, Proc. IEE 113 (1966) 1387.
 */
export const dowellFactor = (xi: number, layers: number): number =>
  sheetSkinFactor(xi) + sheetProximityFactor(xi) * (layers ** 2 / 3 - 1 / 12)

/**
 * Thickness of the foil that stands for a layer of round wires, times the root of its porosity:
 * h = (√π/2) d · sqrt((√π/2) d / pitch). Divide by δ for ξ. Source: Dowell (1966); Dixon, Unitrode Magnetics
 * Design Handbook, section 5.
 */
export const layerThickness_m = (diameter_m: number, pitch_m: number): number => {
  const square_m = (Math.sqrt(Math.PI) / 2) * diameter_m
  return square_m * Math.sqrt(square_m / pitch_m)
}
