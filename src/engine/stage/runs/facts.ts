import { settledWithin } from './follow.ts'
import type { RunTrace } from './trace.ts'

/** What a course of the output comes to. */
export interface CourseFacts {
  readonly final_V: number
  readonly highest_V: number
  readonly highestAt_s: number
  readonly lowest_V: number
  readonly lowestAt_s: number
  /** From when on the output stays within 2 % of where it should be; null when it is not there in the end. */
  readonly settledAt_s: number | null
  readonly drainMost_V: number
  readonly drainMostAt_s: number
  readonly currentMost_A: number
  readonly currentMostAt_s: number
  readonly primaryMost_A: number
  readonly reverseMost_V: number
  readonly biasMost_V: number
  readonly junctionMost_C: number
}

/** Reads a trace from an instant on. */
export function courseFacts(trace: RunTrace, wanted_V: number, from_s: number): CourseFacts {
  const { time_s } = trace
  let first = 0
  while (first < time_s.length - 1 && time_s[first]! <= from_s) first++
  const extreme = (column: Float64Array, sign: 1 | -1): { value: number; time_s: number } => {
    let at = first
    for (let i = first; i < column.length; i++) if (sign * column[i]! > sign * column[at]!) at = i
    return { value: column[at] ?? 0, time_s: time_s[at] ?? 0 }
  }
  let settledAt_s: number | null = time_s[first] ?? 0
  for (let i = first; i < time_s.length; i++)
    if (Math.abs(trace.output_V[i]! / wanted_V - 1) > settledWithin)
      settledAt_s = i + 1 < time_s.length ? time_s[i + 1]! : null
  const highest = extreme(trace.outputMost_V, 1)
  const lowest = extreme(trace.outputLeast_V, -1)
  const drain = extreme(trace.drainMost_V, 1)
  const current = extreme(trace.currentMost_A, 1)
  return {
    final_V: trace.output_V.at(-1) ?? 0,
    highest_V: highest.value,
    highestAt_s: highest.time_s,
    lowest_V: lowest.value,
    lowestAt_s: lowest.time_s,
    settledAt_s,
    drainMost_V: drain.value,
    drainMostAt_s: drain.time_s,
    currentMost_A: current.value,
    currentMostAt_s: current.time_s,
    primaryMost_A: extreme(trace.primaryMost_A, 1).value,
    reverseMost_V: extreme(trace.reverseMost_V, 1).value,
    biasMost_V: extreme(trace.bias_V, 1).value,
    junctionMost_C: extreme(trace.junction_C, 1).value,
  }
}
