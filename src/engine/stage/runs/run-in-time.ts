import type { Design } from '../../supply/design.ts'
import { cornerById } from '../corner.ts'
import type { StageLoad } from '../load.ts'
import { lean, stageParameters } from '../parameters.ts'
import { pointAt } from '../point.ts'
import { type Detail, type Followed, type FollowFailure, follow } from './follow.ts'
import { type LampTrace, runBehindLamp } from './lamp-run.ts'
import { planRun, type TimeRunId, timeRuns } from './plans.ts'
import { type Telling, tell } from './tell.ts'
import type { RunTrace } from './trace.ts'
import type { PassedLimit } from './watch.ts'

export interface TimeRunOptions {
  /** Another corner than the one at which the run is worst. */
  readonly corner?: string
  /** Another kind of load than what the supply feeds; a battery is not taken by itself, since it holds any fault. */
  readonly load?: StageLoad['kind']
  /** For the run behind a lamp; 100 W at nominal input when left out. */
  readonly lamp?: { readonly power_W: number; readonly voltage_V: number }
}

/** One run in time: what happened, in words and in traces. Plain data: it may pass between threads. */
export interface TimeRunOutcome {
  readonly ok: true
  readonly id: TimeRunId
  readonly corner: string
  readonly telling: Telling
  /** Limits passed, by time. */
  readonly passed: readonly PassedLimit[]
  /** Ended early because a part was destroyed. */
  readonly destroyed: boolean
  readonly event_s: number
  readonly end_s: number
  readonly tries: number
  readonly pulses: number
  readonly trips: number
  readonly trace: RunTrace | null
  readonly detail: Detail | null
  readonly lampTrace: LampTrace | null
}

export interface TimeRunFailure {
  readonly ok: false
  readonly id: TimeRunId
  readonly code: FollowFailure['code'] | 'no-working-point' | 'no-corner'
  readonly message: string
}

const usualLamp_W = 100

/**
 * Follows a supply through a start, a step, a short or a fault, cycle by cycle.
 * Errors: typed; an unknown corner, a corner without working point, a budget that ran out, or cancelled.
 */
export function runInTime(
  d: Design,
  id: TimeRunId,
  options: TimeRunOptions = {},
  onProgress?: (fraction: number) => void,
  cancelled?: () => boolean,
): TimeRunOutcome | TimeRunFailure {
  const corner = cornerById.get(options.corner ?? timeRuns[id].corner)
  if (corner === undefined)
    return { ok: false, id, code: 'no-corner', message: `there is no corner called ${options.corner}` }
  const point = pointAt(d, corner)
  if (point === null)
    return {
      ok: false,
      id,
      code: 'no-working-point',
      message: `the supply has no working point at ${corner.label}`,
    }
  if (id === 'lamp') {
    const { source } = d.need
    const nominal_V = source.kind === 'mains' ? source.nominal_Vrms : source.nominal_V
    const run = runBehindLamp(
      d,
      point,
      options.lamp ?? { power_W: usualLamp_W, voltage_V: nominal_V > 160 ? 230 : 120 },
    )
    if (!run.ok) return { ok: false, id, code: run.code, message: run.message }
    return {
      ...nothing,
      id,
      corner: corner.id,
      telling: run.telling,
      lampTrace: run.trace,
      end_s: run.trace.time_s.at(-1) ?? 0,
    }
  }
  const p = lean(stageParameters(d, point))
  const plan = planRun(id, d, p, point.operation.junction_C, options.load)
  const run: Followed | FollowFailure = follow(d, p, plan, onProgress, cancelled)
  if (!run.ok) return { ok: false, id, code: run.code, message: run.message }
  return {
    ...nothing,
    id,
    corner: corner.id,
    telling: tell(id, d, run, plan),
    passed: run.passed,
    destroyed: run.destroyed,
    event_s: plan.event_s,
    end_s: run.end_s,
    tries: run.tries,
    pulses: run.pulses,
    trips: run.trips,
    trace: run.trace,
    detail: run.detail,
  }
}

const nothing = {
  ok: true,
  passed: [],
  destroyed: false,
  event_s: 0,
  end_s: 0,
  tries: 0,
  pulses: 0,
  trips: 0,
  trace: null,
  detail: null,
  lampTrace: null,
} as const
