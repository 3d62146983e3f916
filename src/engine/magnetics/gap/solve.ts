import { fail, millimetres, type Result, succeed } from '../core/result.ts'
import { gapPermeance, inductanceFactor } from './inductance.ts'
import { type GapModel, mu0 } from './model.ts'

/** Below this a gap is taken as none. */
const least_m = 1e-11

/**
 * Gap for a wanted inductance factor AL (H per turn squared), by Newton steps in ln g on ln P with bisection as guard.
 * The permeance falls steadily with the gap, so there is one answer.
 * Errors: AL not positive, at or above that of the ungapped core, or so low that the gap leaves the model's range.
 */
export function gapForFactor(model: GapModel, core_per_H: number, factor_H: number): Result<number> {
  if (!(factor_H > 0))
    return fail('factor_H', `the inductance factor is ${factor_H} H, but it must be above 0`)
  const gapOnly_per_H = 1 / factor_H - core_per_H
  if (!(gapOnly_per_H > 0)) {
    const ungapped = (1e9 / core_per_H).toPrecision(4)
    return fail(
      'factor_H',
      `the inductance factor is ${(factor_H * 1e9).toPrecision(4)} nH, but the core without a gap has only ${ungapped} nH`,
    )
  }
  const wanted_H = 1 / gapOnly_per_H
  if (wanted_H >= gapPermeance(model, least_m)) return succeed(0)
  if (wanted_H < gapPermeance(model, model.greatest_m)) {
    const lowest = inductanceFactor(model, core_per_H, model.greatest_m) * 1e9
    return fail(
      'factor_H',
      `the inductance factor is ${(factor_H * 1e9).toPrecision(4)} nH, below the ${lowest.toPrecision(4)} nH of the largest gap of ${millimetres(model.greatest_m)}`,
    )
  }
  let low = Math.log(least_m)
  let high = Math.log(model.greatest_m)
  let x = Math.min(high, Math.max(low, Math.log((1.2 * mu0 * model.area_m2) / wanted_H)))
  for (let i = 0; i < 60; i++) {
    const g = Math.exp(x)
    const miss = Math.log(gapPermeance(model, g) / wanted_H)
    if (Math.abs(miss) < 1e-12) return succeed(g)
    if (miss > 0) low = x
    else high = x
    const ahead = Math.log(gapPermeance(model, g * 1.0001) / wanted_H)
    const next = x - (miss * Math.log(1.0001)) / (ahead - miss)
    x = next > low && next < high ? next : (low + high) / 2
    if (high - low < 1e-13) return succeed(Math.exp(x))
  }
  return fail('factor_H', `no gap found for an inductance factor of ${(factor_H * 1e9).toPrecision(4)} nH`)
}

/** Gap for a wanted inductance with so many turns. Errors as `gapForFactor`, and turns below 1. */
export function gapForInductance(
  model: GapModel,
  core_per_H: number,
  turns: number,
  inductance_H: number,
): Result<number> {
  if (!(turns >= 1)) return fail('turns', `the number of turns is ${turns}, but it must be at least 1`)
  return gapForFactor(model, core_per_H, inductance_H / turns ** 2)
}
