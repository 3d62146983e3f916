import type { Network } from '../loop/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { type Loop, loopOf } from '../supply/loop/index.ts'
import { loopLimits } from './rules/loop.ts'

/** What another network round the reference would do at every corner. */
export interface NetworkTrial {
  /** Least phase margins, degrees; null where no corner crosses over. */
  readonly now_deg: number | null
  readonly then_deg: number | null
  /** True where more limits of the loop would be broken, or where the broken ones would be further from holding. */
  readonly worse: boolean
}

/**
 * Judges a network by the limits of the loop against the present one, with everything else as it is. A network that
 * holds every limit is never worse, however much room the present one leaves.
 * Errors: RangeError for values outside the relations of the loop.
 */
export function tryNetwork(
  evaluation: Evaluation,
  network: Network,
  now: Loop = loopOf(evaluation),
): NetworkTrial {
  const then = loopOf(evaluation, { ...evaluation.design.feedback, ...network })
  return {
    now_deg: leastPhase_deg(now),
    then_deg: leastPhase_deg(then),
    worse: shortfall(evaluation, then) > shortfall(evaluation, now),
  }
}

/** Broken limits of a loop, and below one the part by which the weakest is short; endless where nothing crosses over. */
function shortfall(evaluation: Evaluation, loop: Loop): number {
  if (loop.worst === null) return Number.POSITIVE_INFINITY
  const broken = loopLimits(evaluation, loop).filter((limit) => !limit.holds)
  return broken.length + Math.max(0, ...broken.map((limit) => -limit.margin)) / 10
}

const leastPhase_deg = ({ worst }: Loop): number | null =>
  worst?.phase.margins.ok ? worst.phase.margins.phaseMargin_deg : null
