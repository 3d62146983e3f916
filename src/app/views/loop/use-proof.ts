import { useEffect, useRef, useState } from 'react'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { type CornerWithMargins, stepPlan, switchedOf } from '../../../engine/supply/loop/index.ts'
import type { ProofReply, ProofRequest } from './prove-worker.ts'

export interface ProofState {
  readonly runs: boolean
  readonly reply: ProofReply | null
  /** The corner that was proved, to tell whether it is still the one shown. */
  readonly of: CornerWithMargins | null
}

const rest: ProofState = { runs: false, reply: null, of: null }

/** Lowest and highest frequency of a proof: a decade and a half below the crossover, to a tenth of the switching one. */
const rangeFor = (corner: CornerWithMargins): { from_Hz: number; to_Hz: number } => {
  const { stage, margins } = corner
  const crossover_Hz = margins.ok ? margins.crossover_Hz : 500
  return {
    from_Hz: Math.max(20, Math.min(crossover_Hz / 10, stage.frequency_Hz / 500)),
    to_Hz: stage.frequency_Hz / 5,
  }
}

/** Runs proofs in a worker, one at a time; the worker ends with the view. */
export const useProof = () => {
  const [state, setState] = useState<ProofState>(rest)
  const worker = useRef<Worker | null>(null)
  useEffect(() => () => worker.current?.terminate(), [])
  const prove = (evaluation: Evaluation, corner: CornerWithMargins) => {
    worker.current?.terminate()
    const now = new Worker(new URL('./prove-worker.ts', import.meta.url), { type: 'module' })
    worker.current = now
    setState({ runs: true, reply: null, of: corner })
    const done = (reply: ProofReply) => {
      now.terminate()
      setState({ runs: false, reply, of: corner })
    }
    now.addEventListener('message', (event: MessageEvent<ProofReply>) => done(event.data))
    now.addEventListener('error', (event) => done({ ok: false, message: event.message }))
    const request: ProofRequest = {
      loop: switchedOf(evaluation, corner),
      ...rangeFor(corner),
      plans: [stepPlan(corner, 'load'), stepPlan(corner, 'mains')],
    }
    now.postMessage(request)
  }
  return { state, prove }
}
