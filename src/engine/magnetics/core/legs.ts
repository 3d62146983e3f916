import { type Dimensions, hasRoundPost, type Shape } from './dimensions.ts'

/** Area of both outer legs together, from dimensions. */
export function legArea(shape: Shape, d: Dimensions): number {
  if (!hasRoundPost(shape)) return (d.A_m - d.E_m) * d.C_m
  return shape === 'RM' ? rmLegArea(d) : roundWindowLegArea(d)
}

/** Integral of sqrt(R² - y²) from 0 to y. */
const circleArea = (R: number, y: number) => (y * Math.sqrt(R * R - y * y) + R * R * Math.asin(y / R)) / 2

/**
 * Legs with straight outside and a round inside of diameter E, cut to the depth C; where an opening G is given the
 * legs also end at that width.
 */
function roundWindowLegArea(d: Dimensions): number {
  const R = d.E_m / 2
  const p = Math.min((d.G_m ?? 0) / 2, R)
  const halfDepth = d.C_m / 2
  const arcEnd = Math.min(halfDepth, Math.sqrt(R * R - p * p))
  return 4 * (halfDepth * (d.A_m / 2) - circleArea(R, arcEnd) - p * (halfDepth - arcEnd))
}

/** Side of the square of which an RM core's outline is cut, over its window diameter E: 1.12 to 1.16 from RM5 to RM14. */
const rmSide = 1.14

/** Legs of an RM core: the corners of a square beyond the opening G and outside the round window E. */
function rmLegArea(d: Dimensions): number {
  const R = d.E_m / 2
  const p = Math.min((d.G_m ?? d.E_m * 0.55) / 2, R)
  const corner = (rmSide * d.E_m) / Math.SQRT2
  const end = Math.min(d.A_m / 2, corner)
  const under = corner * (end - p) - (end * end - p * p) / 2
  const disc = circleArea(R, R) - circleArea(R, p)
  return 4 * (under - disc)
}
