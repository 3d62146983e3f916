import { memo } from 'react'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { go, routeStore } from '../../state/route.ts'
import { useStore } from '../../state/store.ts'
import { waveformStrings as words } from '../../strings/waveforms.ts'
import { wavePart } from './part-store.ts'
import { proofOf, proofs } from './proof-state.ts'

const openProof = (): void => {
  wavePart.set(() => 'proof')
  const route = routeStore.get()
  if (route.at === 'supply') go({ ...route, view: 'waveforms', focus: null })
}

/** Opens the proof and begins it. The solver is loaded only now: it is no part of the first page. */
const prove = async (evaluation: Evaluation): Promise<void> => {
  openProof()
  const { proveAll } = await import('./proof-store.ts')
  await proveAll(evaluation)
}

/** Says at which depth the limits beside it stand, and leads to the solved ones. */
export const ProvedDepth = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const { id } = evaluation.design.supply
  const { proof, of, under } = useStore(proofs, (all) => proofOf(all, id))
  const first = proof?.limits[0]?.limit.title
  const standing = of === evaluation || under !== null
  return (
    <p className="limits-depth">
      <span title={words.depth.closedHere}>{words.depth.closed}</span>{' '}
      <button
        type="button"
        className="plain"
        onClick={() => (standing ? openProof() : void prove(evaluation))}
      >
        {first === undefined
          ? words.proof.offer
          : of === evaluation
            ? words.proof.first(first)
            : words.proof.offerOld}
      </button>
    </p>
  )
})
