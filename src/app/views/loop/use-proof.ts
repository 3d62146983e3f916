import { useEffect, useRef, useState } from 'react'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import {
  type CornerWithMargins,
  proofRange,
  stepPlan,
  switchedOf,
} from '../../../engine/supply/loop/index.ts'
import type { ProofReply, ProofRequest } from './prove-worker.ts'

export interface ProofState {
  readonly runs: boolean
  readonly reply: ProofReply | null
  /** The corner that was proved, to tell whether it is still the one shown. */
  readonly of: CornerWithMargins | null
}

const rest: ProofState = { runs: false, reply: null, of: null }

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
      ...proofRange(corner),
      plans: [stepPlan(corner, 'load'), stepPlan(corner, 'mains')],
    }
    now.postMessage(request)
  }
  return { state, prove }
}
