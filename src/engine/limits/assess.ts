import { type Evaluation, evaluate, resolve } from '../supply/evaluate.ts'
import { type Result, succeed } from '../supply/result.ts'
import type { Supply } from '../supply/supply.ts'
import type { Limit } from './limit.ts'
import { limits } from './limits.ts'

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

/** Does all at once: settles what is open, reads every condition, and ranks the limits. */
export function assess(supply: Supply): Result<Assessment> {
  const design = resolve(supply)
  if (!design.ok) return design
  const evaluation = evaluate(design.value)
  const ranked = limits(evaluation)
  const givesFirst = ranked[0]!
  return succeed({ evaluation, limits: ranked, givesFirst, holds: givesFirst.holds })
}
