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

/** Says at which depth the limits beside it stand, and leads to the solved ones. */
export const ProvedDepth = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const { id } = evaluation.design.supply
  const { proof, of } = useStore(proofs, (all) => proofOf(all, id))
  const first = proof?.limits[0]?.limit.title
  return (
    <p className="limits-depth">
      <span title={words.depth.closedHere}>{words.depth.closed}</span>{' '}
      <button type="button" className="plain" onClick={openProof}>
        {first === undefined
          ? words.proof.offer
          : of === evaluation
            ? words.proof.first(first)
            : words.proof.offerOld}
      </button>
    </p>
  )
})
