import type { ConditionId } from '../../../engine/supply/condition.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import {
  bandOf,
  type CornerWithMargins,
  curveOf,
  frequenciesBetween,
  type Loop,
  type LoopBand,
  type LoopCurve,
  loopAt,
} from '../../../engine/supply/loop/index.ts'
import { loopOfEvaluation } from '../../state/assessment.ts'

/** The loop of one evaluated supply, worked out once for everything that shows it. */
export interface LoopAnswer {
  readonly loop: Loop
  readonly frequency_Hz: Float64Array
  readonly band: LoopBand | null
}

const known = new WeakMap<Evaluation, LoopAnswer>()
const pointsOfCurve = 160
const from_Hz = 10

export const loopAnswer = (evaluation: Evaluation): LoopAnswer => {
  const before = known.get(evaluation)
  if (before) return before
  const loop = loopOfEvaluation(evaluation)
  const frequency_Hz = frequenciesBetween(
    from_Hz,
    evaluation.design.parts.switcher.frequency_Hz.typical / 2,
    pointsOfCurve,
  )
  const answer = {
    loop,
    frequency_Hz,
    band: loop.corners.length > 0 ? bandOf(loop.corners, frequency_Hz) : null,
  }
  known.set(evaluation, answer)
  return answer
}

/** The loop at the condition chosen, with its curve. */
export interface LoopHere {
  readonly corner: CornerWithMargins
  readonly curve: LoopCurve
}

export const loopHere = (evaluation: Evaluation, id: ConditionId): LoopHere | null => {
  const corner = loopAt(evaluation, id)
  return corner === null ? null : { corner, curve: curveOf(corner, loopAnswer(evaluation).frequency_Hz) }
}
