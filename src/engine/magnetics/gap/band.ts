import type { Spread } from '../../quantity/spread.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import { coreReluctance, inductanceFactor } from './inductance.ts'
import { type GapModel, gapRange } from './model.ts'
import { gapForFactor } from './solve.ts'

/** Inductance factor with the tolerance of the gap and of the ferrite, both at their worst together. */
export function factorBand(
  model: GapModel,
  C1_per_m: number,
  permeability: Spread,
  gap_m: Spread,
): Result<Spread> {
  const range = gapRange(model, gap_m.maximum)
  if (!range.ok) return range
  if (!(gap_m.minimum >= 0))
    return fail('gap_m', `the least gap is ${gap_m.minimum} m, but it must not be negative`)
  const at = (mu: number, g: number) => inductanceFactor(model, coreReluctance(C1_per_m, mu), g)
  return succeed({
    minimum: at(permeability.minimum, gap_m.maximum),
    typical: at(permeability.typical, gap_m.typical),
    maximum: at(permeability.maximum, gap_m.minimum),
  })
}

/**
 * True gap from a measured inductance factor with the meter's spread and the ferrite's. Where a corner of the spread
 * asks for no gap at all its gap is 0.
 */
export function gapFromMeasurement(
  model: GapModel,
  C1_per_m: number,
  permeability: Spread,
  factor_H: Spread,
): Result<Spread> {
  const typical = gapForFactor(model, coreReluctance(C1_per_m, permeability.typical), factor_H.typical)
  if (!typical.ok) return typical
  const maximum = gapForFactor(model, coreReluctance(C1_per_m, permeability.maximum), factor_H.minimum)
  if (!maximum.ok) return maximum
  const minimum = gapForFactor(model, coreReluctance(C1_per_m, permeability.minimum), factor_H.maximum)
  return succeed({
    minimum: minimum.ok ? minimum.value : 0,
    typical: typical.value,
    maximum: maximum.value,
  })
}
