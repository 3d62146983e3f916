import { type Dimensions, hasRoundPost, type Shape } from './dimensions.ts'
import { legArea } from './legs.ts'
import { postOf } from './post.ts'

/** Effective parameters of a pair of halves: the uniform ring that has the same reluctance and the same loss. */
export interface EffectiveParameters {
  /** Core constant, sum of length over area, 1/m. */
  readonly C1_per_m: number
  /** Sum of length over area squared, 1/m³. */
  readonly C2_per_m3: number
  readonly length_m: number
  readonly area_m2: number
  readonly volume_m3: number
  readonly minimumArea_m2: number
}

/**
 * Effective parameters from dimensions by the method of IEC 60205: legs, yokes and post as uniform pieces joined by
 * quarter-turn corners of mean area; C1 = sum l/A, C2 = sum l/A², le = C1²/C2, Ae = C1/C2, Ve = le Ae. The two
 * halves of the magnetic circuit are in parallel, so each area counts both. Where the yoke of a round post widens
 * or narrows with radius its reluctance is integrated along the radius.
 */
export function effectiveParameters(shape: Shape, d: Dimensions): EffectiveParameters {
  const window_m = (d.E_m - d.F_m) / 2
  const yoke_m = d.B_m - d.D_m
  const halves = shape === 'EI' ? 1 : 2
  const post = postOf(shape, d)
  const legs_m2 = legArea(shape, d)
  const round = hasRoundPost(shape)
  const yokes_m2 = round ? roundYokeArea(shape, d, yoke_m) : 2 * yoke_m * d.C_m
  const legMean_m = legs_m2 / (2 * d.C_m) / 2
  const postMean_m = round ? post.area_m2 / (4 * d.F_m) : d.F_m / 4
  const legCorner_m = (Math.PI / 4) * (legMean_m + yoke_m / 2)
  const postCorner_m = (Math.PI / 4) * (postMean_m + yoke_m / 2)
  const post_m2 = post.area_m2
  const pieces: readonly (readonly [length_m: number, area_m2: number])[] = [
    [halves * d.D_m, legs_m2],
    [2 * window_m, yokes_m2],
    [halves * d.D_m, post_m2],
    [2 * legCorner_m, (legs_m2 + yokes_m2) / 2],
    [2 * postCorner_m, (post_m2 + yokes_m2) / 2],
  ]
  let C1_per_m = 0
  let C2_per_m3 = 0
  for (const [length_m, area_m2] of pieces) {
    C1_per_m += length_m / area_m2
    C2_per_m3 += length_m / area_m2 ** 2
  }
  return {
    C1_per_m,
    C2_per_m3,
    length_m: C1_per_m ** 2 / C2_per_m3,
    area_m2: C1_per_m / C2_per_m3,
    volume_m3: C1_per_m ** 3 / C2_per_m3 ** 2,
    minimumArea_m2: shape === 'PQ' || shape === 'RM' ? post_m2 : Math.min(post_m2, legs_m2, yokes_m2),
  }
}

/**
 * Section of both sides of the yoke of a round-post core: harmonic mean along the radius of thickness times width.
 * The plate of ETD, EER and ER cores has the width C of the legs. The plate of an RM core is wide enough for the
 * flux to spread on arcs. That of a PQ core lies between arcs and a waist of the post's width; the mean is taken.
 */
function roundYokeArea(shape: Shape, d: Dimensions, thickness_m: number): number {
  if (shape !== 'PQ' && shape !== 'RM') return 2 * thickness_m * taperWidth(d.F_m, d.C_m)
  const arcs_m2 = 2 * thickness_m * arcWidth(d)
  return shape === 'RM' ? arcs_m2 : (arcs_m2 + 2 * thickness_m * taperWidth(d.F_m, d.C_m)) / 2
}

/** Harmonic mean of a width that goes evenly from one value to another. */
const taperWidth = (from_m: number, to_m: number) =>
  Math.abs(to_m / from_m - 1) < 1e-6 ? to_m : (to_m - from_m) / Math.log(to_m / from_m)

/** Harmonic mean, over the radius from post to window edge, of the arc inside a plate of depth C. */
function arcWidth(d: Dimensions): number {
  const steps = 16
  let sum = 0
  for (let i = 0; i < steps; i++) {
    const radius_m = (d.F_m + ((d.E_m - d.F_m) * (i + 0.5)) / steps) / 2
    sum += 1 / (2 * radius_m * Math.asin(Math.min(1, d.C_m / 2 / radius_m)))
  }
  return steps / sum
}
