import type { Spread } from '../../quantity/spread.ts'
import { fail, millimetres, type Result, succeed } from '../core/result.ts'
import { type GapModel, gapForFactor } from '../gap/index.ts'

export interface GapVerdict {
  readonly code: 'right' | 'none' | 'half' | 'small' | 'large' | 'double'
  /** The gap that the measured inductance shows, with the meter's accuracy. */
  readonly gap_m: Spread
  /** True gap over planned gap. */
  readonly ratio: number
  /** So little gap that any core saturates at a current limit that suits the planned one. */
  readonly doNotPower: boolean
  readonly message: string
}

/** Inductance tolerance of a hand-set gap: trade texts give 10 to 15 %. */
const tolerance = 0.12

/**
 * Verdict on a measured inductance in the builder's terms. Half the planned gap is what comes of using the spacer's
 * thickness as a cut in the post; double of using the cut's depth as a spacer under all legs.
 * Errors: turns, inductances or planned gap not positive; measured inductance so low that no gap explains it.
 */
export function judgeGap(
  model: GapModel,
  core_per_H: number,
  turns: number,
  planned: { readonly inductance_H: number; readonly gap_m: number },
  measured_H: number,
  meterAccuracy: number,
): Result<GapVerdict> {
  if (!(measured_H > 0))
    return fail('measured_H', `the inductance is ${measured_H} H, but it must be above 0`)
  if (!(planned.gap_m > 0))
    return fail('planned.gap_m', `the planned gap is ${planned.gap_m} m, but it must be above 0`)
  if (!(turns >= 1)) return fail('turns', `the number of turns is ${turns}, but it must be at least 1`)
  const gapAt = (inductance_H: number) => gapForFactor(model, core_per_H, inductance_H / turns ** 2)
  const largest = gapAt(measured_H / (1 + meterAccuracy))
  const typical = gapAt(measured_H)
  const least = gapAt(measured_H * (1 + meterAccuracy))
  const reachable = measured_H / turns ** 2 >= 1 / core_per_H
  if (!typical.ok && !reachable) return typical
  const gap_m = {
    minimum: least.ok ? least.value : 0,
    typical: typical.ok ? typical.value : 0,
    maximum: largest.ok ? largest.value : typical.ok ? typical.value : 0,
  }
  const ratio = gap_m.typical / planned.gap_m
  const high = measured_H / planned.inductance_H - 1
  const code = codeFor(ratio, high)
  const shown = `${millimetres(gap_m.typical)} where ${millimetres(planned.gap_m)} is planned`
  const doNotPower = code === 'none' || code === 'half'
  return succeed({ code, gap_m, ratio, doNotPower, message: sentence(model, code, shown) })
}

function codeFor(ratio: number, high: number): GapVerdict['code'] {
  if (Math.abs(high) <= tolerance) return 'right'
  if (ratio < 0.15) return 'none'
  if (ratio > 0.4 && ratio < 0.6) return 'half'
  if (ratio < 1) return 'small'
  return ratio > 1.7 && ratio < 2.4 ? 'double' : 'large'
}

function sentence(model: GapModel, code: GapVerdict['code'], shown: string): string {
  const spacer = model.place === 'all-legs'
  switch (code) {
    case 'right':
      return `the gap is right: ${shown}`
    case 'none':
      return `there is next to no gap: ${shown}; do not power, the core saturates at once`
    case 'half':
      return spacer
        ? `about half the gap: ${shown}; double the spacer, do not power`
        : `about half the gap: ${shown}; a spacer's thickness was cut into the post, do not power`
    case 'small':
      return `the gap is too small: ${shown}; the flux is higher in proportion`
    case 'large':
      return `the gap is too large: ${shown}; less power at low line`
    case 'double':
      return spacer
        ? `spacers are full value: ${shown}; halve them, or there is less power at low line`
        : `about twice the gap: ${shown}; less power at low line`
  }
}
