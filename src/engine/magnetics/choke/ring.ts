import type { Toroid } from '../../parts/part.ts'
import { fail, millimetres, type Result, succeed } from '../core/result.ts'
import { mu0 } from '../gap/index.ts'

export interface RingGeometry {
  readonly C1_per_m: number
  readonly length_m: number
  readonly area_m2: number
  readonly volume_m3: number
}

/**
 * Effective parameters of a ring of rectangular section, IEC 60205: C1 = 2 pi / (h ln(D/d)),
 * C2 = 4 pi (1/d - 1/D) / (h² ln³(D/d)), le = C1²/C2, Ae = C1/C2.
 * Errors: hole not smaller than the outside, a dimension not positive.
 */
export function ringGeometry(ring: Pick<Toroid, 'outer_m' | 'inner_m' | 'height_m'>): Result<RingGeometry> {
  const { outer_m, inner_m, height_m } = ring
  if (!(height_m > 0))
    return fail('height_m', `the height is ${millimetres(height_m)}, but it must be above 0`)
  if (!(inner_m > 0 && inner_m < outer_m))
    return fail(
      'inner_m',
      `the hole is ${millimetres(inner_m)}, but it must be above 0 and below the outside of ${millimetres(outer_m)}`,
    )
  const log = Math.log(outer_m / inner_m)
  const C1_per_m = (2 * Math.PI) / (height_m * log)
  const C2_per_m3 = (4 * Math.PI * (1 / inner_m - 1 / outer_m)) / (height_m ** 2 * log ** 3)
  return succeed({
    C1_per_m,
    length_m: C1_per_m ** 2 / C2_per_m3,
    area_m2: C1_per_m / C2_per_m3,
    volume_m3: C1_per_m ** 3 / C2_per_m3 ** 2,
  })
}

/** Inductance factor from geometry and permeability, H per turn squared: mu0 mu / C1. */
export const ringInductanceFactor = (geometry: Pick<RingGeometry, 'C1_per_m'>, permeability: number) =>
  (mu0 * permeability) / geometry.C1_per_m
