import { type StepFailure, type StepResponse, stepResponse } from '../../loop/index.ts'
import { at, type Evaluation } from '../evaluation.ts'
import type { CornerWithMargins } from './loop-of.ts'
import type { SwitchedLoop } from './switched/loop.ts'

export type StepKind = 'load' | 'mains'

/** What steps at a corner: load from half to full, or the bulk voltage by a tenth, and how long it is watched. */
export interface StepPlan {
  readonly kind: StepKind
  /** A of load or V of bulk voltage. */
  readonly size: number
  readonly duration_s: number
  /** When the switched circuit steps, so that what was before is seen. */
  readonly stepAt_s: number
}

/** Ringing and settling take some cycles of the crossover; between 1 and 20 ms are shown. */
const cyclesShown = 8
/** Share of the switched trace before the step. */
const before = 0.08

export function stepPlan(corner: CornerWithMargins, kind: StepKind): StepPlan {
  const crossover_Hz = corner.margins.ok ? corner.margins.crossover_Hz : 500
  const duration_s = Math.min(20e-3, Math.max(1e-3, cyclesShown / crossover_Hz))
  return {
    kind,
    size: kind === 'load' ? corner.stage.output_A / 2 : 0.1 * corner.stage.bulk_V,
    duration_s,
    stepAt_s: before * duration_s,
  }
}

/** The linear model's answer at a corner. */
export function stepOf(corner: CornerWithMargins, plan: StepPlan, points = 300): StepResponse | StepFailure {
  return stepResponse(
    corner.small,
    corner.stage.filter,
    corner.path,
    plan.kind === 'load' ? 'load-current' : 'bulk-voltage',
    plan.size,
    plan.duration_s,
    points,
  )
}

/** The loop at a corner as it would be switched, with the limits of its chip. */
export function switchedOf(evaluation: Evaluation, corner: CornerWithMargins): SwitchedLoop {
  const { switcher } = evaluation.design.parts
  const there = at(evaluation, corner.condition)
  return {
    stage: corner.stage,
    modulator:
      switcher.control.style === 'voltage-mode'
        ? { style: 'voltage-mode' }
        : { style: 'peak-current', slope_A_per_s: switcher.control.slope_A_per_s },
    path: corner.path,
    point: corner.small.point,
    mostDuty: switcher.maximumDuty.typical,
    mostPeak_A: there ? Math.max(there.readings.limitPeak_A, corner.small.point.primary_Apeak) : 1e3,
  }
}

/** The same step put on the switched loop: half of the load is returned until then, or the bulk voltage steps. */
export function withStep(loop: SwitchedLoop, plan: StepPlan): SwitchedLoop {
  const at_s = plan.stepAt_s
  const edge_s = 1e-6
  if (plan.kind === 'load')
    return {
      ...loop,
      loadStep: [
        [0, -plan.size],
        [at_s, -plan.size],
        [at_s + edge_s, 0],
      ],
    }
  return {
    ...loop,
    bulkSteps: [
      [0, loop.stage.bulk_V],
      [at_s, loop.stage.bulk_V],
      [at_s + edge_s, loop.stage.bulk_V + plan.size],
    ],
  }
}
