import {
  proveLoop,
  type StepPlan,
  type SwitchedLoop,
  switchedStep,
  withStep,
} from '../../../engine/supply/loop/index.ts'
import type { ProofFailure, ProofPoint } from '../../../engine/supply/loop/prove.ts'

/** What the page asks for: points on the loop's curve, then a step of each kind. */
export interface ProofRequest {
  readonly loop: SwitchedLoop
  readonly from_Hz: number
  readonly to_Hz: number
  readonly plans: readonly StepPlan[]
}

export interface SwitchedTrace {
  readonly time_s: Float64Array
  readonly deviation_V: Float64Array
}

export type ProofReply =
  | {
      readonly ok: true
      readonly points: readonly ProofPoint[]
      readonly time_s: number
      readonly traces: readonly (SwitchedTrace | null)[]
    }
  | ProofFailure

const traceOf = (loop: SwitchedLoop, plan: StepPlan): SwitchedTrace | null => {
  const run = switchedStep(withStep(loop, plan), plan.duration_s)
  if (!run.ok) return null
  const rest = run.load_V[0]!
  const at_s = plan.stepAt_s
  return { time_s: run.time_s.map((t) => t - at_s), deviation_V: run.load_V.map((v) => v - rest) }
}

addEventListener('message', ({ data }: MessageEvent<ProofRequest>) => {
  const start = performance.now()
  const proof = proveLoop(data.loop, data.from_Hz, data.to_Hz)
  const reply: ProofReply = proof.ok
    ? {
        ok: true,
        points: proof.points,
        time_s: (performance.now() - start) / 1000,
        traces: data.plans.map((plan) => traceOf(data.loop, plan)),
      }
    : proof
  postMessage(reply)
})
