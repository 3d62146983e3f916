import { type Dimensions, hasRoundPost, type Shape } from './dimensions.ts'

/** Cross-section of the post that carries the winding. */
export type PostSection =
  | { readonly kind: 'round'; readonly diameter_m: number }
  | { readonly kind: 'rectangular'; readonly width_m: number; readonly depth_m: number }

export interface Post {
  readonly section: PostSection
  readonly area_m2: number
  readonly perimeter_m: number
  /** Part of the perimeter that faces an outer leg across the window; the rest faces open air. */
  readonly enclosed_m: number
}

/** Widest part of the core, along the depth, that a leg covers as seen from the post's axis: half-angle, rad. */
function legHalfAngle(d: Dimensions): number {
  const radius = d.E_m / 2
  const byDepth = Math.asin(Math.min(1, d.C_m / d.E_m))
  const byOpening = d.G_m === undefined ? Math.PI / 2 : Math.acos(Math.min(1, d.G_m / 2 / radius))
  return Math.min(byDepth, byOpening)
}

/** Post of a core from its dimensions: F is its width or diameter, C its depth (EFD: F2). */
export function postOf(shape: Shape, d: Dimensions): Post {
  if (hasRoundPost(shape)) {
    const perimeter_m = Math.PI * d.F_m
    const covered = shape === 'RM' ? rmLegHalfAngle(d) : legHalfAngle(d)
    return {
      section: { kind: 'round', diameter_m: d.F_m },
      area_m2: (Math.PI / 4) * d.F_m ** 2,
      perimeter_m,
      enclosed_m: (perimeter_m * 2 * covered) / Math.PI,
    }
  }
  const depth_m = d.F2_m ?? d.C_m
  return {
    section: { kind: 'rectangular', width_m: d.F_m, depth_m },
    area_m2: d.F_m * depth_m,
    perimeter_m: 2 * (d.F_m + depth_m),
    enclosed_m: 2 * depth_m,
  }
}

/** The legs of an RM core leave openings of width G on two sides of the post. */
function rmLegHalfAngle(d: Dimensions): number {
  return d.G_m === undefined ? Math.PI / 4 : Math.acos(Math.min(1, d.G_m / d.E_m))
}
