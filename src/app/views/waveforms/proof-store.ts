import { cornerGroups, corners, gatherProof, type ProvedCorner } from '../../../engine/stage/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { type ProofState, proofOf, proofs } from './proof-state.ts'
import { type Asked, ask } from './stage-pool.ts'

const running = new Map<string, readonly Asked<'group'>[]>()

const put = (id: string, change: Partial<ProofState>): void =>
  proofs.set((all) => ({ ...all, [id]: { ...proofOf(all, id), ...change } }))

export const cancelProof = (id: string): void => {
  const asked = running.get(id)
  running.delete(id)
  put(id, { under: null })
  for (const one of asked ?? []) one.cancel()
}

const place = new Map(corners.map((corner, i) => [corner.id, i]))
const inOrder = (solved: readonly ProvedCorner[]): ProvedCorner[] =>
  [...solved].sort((a, b) => place.get(a.corner.id)! - place.get(b.corner.id)!)

/** Solves every corner of a supply in two workers, shows each as it comes, and keeps what comes of it. */
export const proveAll = async (evaluation: Evaluation): Promise<void> => {
  const { supply } = evaluation.design
  const { id } = supply
  cancelProof(id)
  put(id, { under: [], problem: null })
  const start = performance.now()
  let solved: readonly ProvedCorner[] = []
  const asked = cornerGroups.map((_, group) => ask(supply, { kind: 'group', group }))
  running.set(id, asked)
  const outcomes = await Promise.all(
    asked.map(async (one) => {
      const outcome = await one.answer
      if (outcome.is === 'answer' && running.get(id) === asked) {
        solved = inOrder([...solved, ...outcome.value])
        put(id, { under: solved })
      }
      return outcome
    }),
  )
  if (running.get(id) !== asked) return
  running.delete(id)
  for (const outcome of outcomes)
    if (outcome.is === 'problems') {
      put(id, { under: null, problem: outcome.messages[0] ?? '' })
      return
    }
  if (solved.length < corners.length) {
    put(id, { under: null })
    return
  }
  put(id, {
    of: evaluation,
    proof: gatherProof(evaluation, solved),
    took_s: (performance.now() - start) / 1000,
    under: null,
  })
}
