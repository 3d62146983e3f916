import { memo, useEffect } from 'react'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { useStore } from '../../state/store.ts'
import { waveformStrings as words } from '../../strings/waveforms.ts'
import { CyclePart } from './cycle-part.tsx'
import { wavePart, waveParts } from './part-store.ts'
import { ProofPart } from './proof-part.tsx'
import { RunsPart } from './runs-part.tsx'
import { warmUp } from './stage-pool.ts'
import './waveforms.css'

/** The exact switched circuit: its repeating cycle, every corner proved, and runs in time. */
export const WaveformsView = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const part = useStore(wavePart, (p) => p)
  const { supply } = evaluation.design
  useEffect(() => warmUp(supply), [supply])
  return (
    <div className="waveforms">
      <h2 className="unseen">{words.title}</h2>
      <p className="lead">{words.lead}</p>
      <nav className="wave-parts" aria-label={words.partsLabel}>
        {waveParts.map((name) => (
          <button
            key={name}
            type="button"
            aria-current={name === part ? 'page' : undefined}
            onClick={() => wavePart.set(() => name)}
          >
            {words.parts[name]}
          </button>
        ))}
      </nav>
      {part === 'cycle' && <CyclePart evaluation={evaluation} />}
      {part === 'proof' && <ProofPart evaluation={evaluation} look={() => wavePart.set(() => 'cycle')} />}
      {part === 'runs' && <RunsPart evaluation={evaluation} />}
    </div>
  )
})
