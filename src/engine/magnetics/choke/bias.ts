import type { Toroid } from '../../parts/part.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import type { RingGeometry } from './ring.ts'

/**
 * Fraction of the initial permeability left at a DC field: straight between the points of the curve, 1 at no field,
 * and beyond the last point falling as 1/H squared (a powder near saturation: flux hardly grows).
 */
export function permeabilityLeft(curve: Toroid['biasCurve'], field_A_per_m: number): number {
  const H = Math.abs(field_A_per_m)
  let H0 = 0
  let f0 = 1
  for (const point of curve) {
    if (H <= point.field_A_per_m && point.field_A_per_m > H0)
      return f0 + ((point.fraction - f0) * (H - H0)) / (point.field_A_per_m - H0)
    H0 = point.field_A_per_m
    f0 = point.fraction
  }
  return H > H0 && H0 > 0 ? f0 * (H0 / H) ** 2 : f0
}

/** Inductance of `turns` at a DC current, H: AL N² times the permeability left at N I / le. */
export const chokeInductance = (
  ring: Pick<Toroid, 'inductanceFactor_H' | 'biasCurve'>,
  geometry: Pick<RingGeometry, 'length_m'>,
  turns: number,
  current_A: number,
) =>
  ring.inductanceFactor_H *
  turns ** 2 *
  permeabilityLeft(ring.biasCurve, (turns * current_A) / geometry.length_m)

const mostTurns = 500

/**
 * Fewest turns that hold an inductance at a DC current, with AL at its lower tolerance.
 * Errors: inductance or current not positive; no number of turns holds (more turns lose more permeability than they
 * add), with the most that this ring can give.
 */
export function turnsForInductance(
  ring: Pick<Toroid, 'inductanceFactor_H' | 'inductanceFactorTolerance' | 'biasCurve'>,
  geometry: Pick<RingGeometry, 'length_m'>,
  inductance_H: number,
  current_A: number,
): Result<number> {
  if (!(inductance_H > 0))
    return fail('inductance_H', `the inductance wanted is ${inductance_H} H, but it must be above 0`)
  if (!(current_A >= 0))
    return fail('current_A', `the current is ${current_A} A, but it must not be negative`)
  const least = {
    ...ring,
    inductanceFactor_H: ring.inductanceFactor_H * (1 - ring.inductanceFactorTolerance),
  }
  let best_H = 0
  let bestTurns = 0
  for (let turns = 1; turns <= mostTurns; turns++) {
    const L = chokeInductance(least, geometry, turns, current_A)
    if (L >= inductance_H) return succeed(turns)
    if (L > best_H) {
      best_H = L
      bestTurns = turns
    }
  }
  return fail(
    'inductance_H',
    `${(inductance_H * 1e6).toPrecision(3)} µH at ${current_A} A is beyond this ring: the most it holds is ${(best_H * 1e6).toPrecision(3)} µH, with ${bestTurns} turns`,
  )
}
