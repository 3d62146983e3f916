import type { Proof, ProvedCorner } from '../../../engine/stage/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { createStore } from '../../state/store.ts'

/** How far the proof of one supply has come. */
export interface ProofState {
  /** What the present proof is of; another evaluation makes it an old one. */
  readonly of: Evaluation | null
  readonly proof: Proof | null
  readonly took_s: number
  /** Corners solved while a proof is under way; null while none is. */
  readonly under: readonly ProvedCorner[] | null
  readonly problem: string | null
}

const nothing: ProofState = { of: null, proof: null, took_s: 0, under: null, problem: null }

/** Proofs by supply id. */
export const proofs = createStore<Readonly<Record<string, ProofState>>>({})

export const proofOf = (all: Readonly<Record<string, ProofState>>, id: string): ProofState =>
  all[id] ?? nothing
