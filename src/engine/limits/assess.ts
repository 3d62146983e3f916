import { type Evaluation, evaluate, resolve } from '../supply/evaluate.ts'
import { type Loop, loopOf } from '../supply/loop/index.ts'
import { type Result, succeed } from '../supply/result.ts'
import type { Supply } from '../supply/supply.ts'
import { type Limit, weakestFirst } from './limit.ts'
import { limits } from './limits.ts'
import { loopLimits } from './rules/loop.ts'

/** A supply judged: its readings, and its limits from the weakest. */
export interface Assessment {
  readonly evaluation: Evaluation
  /** Weakest first. */
  readonly limits: readonly Limit[]
  /** The weakest limit: what gives first. */
  readonly givesFirst: Limit
  /** True when every limit holds. */
  readonly holds: boolean
}

/**
 * Settles what is open, reads every condition, and ranks the limits, all but those of the loop: below a millisecond,
 * for a search through many supplies and while somebody edits. The verdict on one supply is that of `assessWhole`.
 */
export function assess(supply: Supply): Result<Assessment> {
  const design = resolve(supply)
  if (!design.ok) return design
  const evaluation = evaluate(design.value)
  return succeed(assessment(evaluation, limits(evaluation)))
}

/** The verdict on a supply: every limit, those of the loop among them. Takes tens of milliseconds. */
export function assessWhole(supply: Supply): Result<Assessment> {
  const fast = assess(supply)
  return fast.ok ? succeed(withLoopLimits(fast.value)) : fast
}

/** An assessment with the limits of its loop among the others. */
export const withLoopLimits = ({ evaluation, limits }: Assessment): Assessment =>
  assessment(evaluation, weakestFirst([...limits, ...limitsOfLoop(evaluation)]))

/**
 * Limits of the loop of an evaluated supply; none where a value lies outside the range of the loop's relations, which
 * the view of the loop then says. `loopIs` may keep loops that are known already.
 */
export function limitsOfLoop(
  evaluation: Evaluation,
  loopIs: (e: Evaluation) => Loop = loopOf,
): readonly Limit[] {
  try {
    return loopLimits(evaluation, loopIs(evaluation))
  } catch (error) {
    if (error instanceof RangeError) return []
    throw error
  }
}

function assessment(evaluation: Evaluation, ranked: readonly Limit[]): Assessment {
  const givesFirst = ranked[0]!
  return { evaluation, limits: ranked, givesFirst, holds: givesFirst.holds }
}
