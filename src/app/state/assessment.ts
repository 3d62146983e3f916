import { type Assessment, assess, limitsOfLoop } from '../../engine/limits/assess.ts'
import { type Limit, weakestFirst } from '../../engine/limits/limit.ts'
import type { Evaluation } from '../../engine/supply/evaluation.ts'
import { type Loop, loopOf } from '../../engine/supply/loop/index.ts'
import { fail, type Result } from '../../engine/supply/result.ts'
import type { Supply } from '../../engine/supply/supply.ts'

/** A function whose answer for the same thing is worked out once. */
const kept = <K extends WeakKey, V>(work: (key: K) => V): ((key: K) => V) => {
  const known = new WeakMap<K, { readonly value: V }>()
  return (key) => {
    const before = known.get(key)
    if (before) return before.value
    const value = work(key)
    known.set(key, { value })
    return value
  }
}

/**
 * The assessment of a supply without its loop, for live editing and for trying parts. A value outside a relation's
 * range is thrown by the engine; here it is an answer like any other.
 */
export const assessmentOf = kept((supply: Supply): Result<Assessment> => {
  try {
    return assess(supply)
  } catch (error) {
    return fail('', error instanceof Error ? error.message : String(error))
  }
})

/** The loop of an evaluated supply. */
export const loopOfEvaluation = kept((evaluation: Evaluation): Loop => loopOf(evaluation))

const loopLimitsOf = kept((evaluation: Evaluation) => limitsOfLoop(evaluation, loopOfEvaluation))

/** Limits, known live, with those of the loop of an evaluation that may lag behind. */
export const withLoopOf = (limits: readonly Limit[], evaluation: Evaluation): readonly Limit[] =>
  weakestFirst([...limits, ...loopLimitsOf(evaluation)])

/** The verdict on a supply: its assessment with the limits of its loop among the others. */
export const wholeAssessmentOf = kept((supply: Supply): Result<Assessment> => {
  const fast = assessmentOf(supply)
  if (!fast.ok) return fast
  const { evaluation } = fast.value
  const limits = withLoopOf(fast.value.limits, evaluation)
  const givesFirst = limits[0]!
  return { ok: true, value: { evaluation, limits, givesFirst, holds: givesFirst.holds } }
})
