import { useMemo } from 'react'
import type { Assessment } from '../../../engine/limits/assess.ts'
import type { Limit } from '../../../engine/limits/limit.ts'
import { loopLimits } from '../../../engine/limits/rules/loop.ts'
import { loopAnswer } from './answers.ts'

/** A loop outside the range of its relations has no limits here; its own view says why. */
const ofLoop = ({ evaluation }: Assessment): readonly Limit[] => {
  try {
    return loopLimits(evaluation, loopAnswer(evaluation).loop)
  } catch (error) {
    if (error instanceof RangeError) return []
    throw error
  }
}

/**
 * The limits of an assessment with those of the loop among them. They take milliseconds, so they follow `slow`, which
 * lags while somebody types: until then those known last stay.
 */
export const useWithLoopLimits = (shown: Assessment | null, slow: Assessment | null): readonly Limit[] => {
  const loop = useMemo(() => (slow ? ofLoop(slow) : []), [slow])
  return useMemo(
    () => (shown ? [...shown.limits, ...loop].sort((a, b) => a.margin - b.margin) : []),
    [shown, loop],
  )
}
