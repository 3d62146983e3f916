import { useMemo } from 'react'
import { identifyRing, type UnknownRing } from '../../../engine/magnetics/unknown-core/index.ts'
import { show, showPercent } from '../../fields/show.ts'
import { createStore, useStore } from '../../state/store.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import { Numbered } from './numbered.tsx'
import { sentence } from './sentence.ts'

const words = transformerStrings.own
const text = transformerStrings.ring

interface Ring {
  readonly outer_m: number | null
  readonly inner_m: number | null
  readonly height_m: number | null
  readonly turns: number | null
  readonly inductance_H: number | null
  readonly accuracy: number
}

/** What has been typed, kept while the page lives. */
const ownRing = createStore<Ring>({
  outer_m: null,
  inner_m: null,
  height_m: null,
  turns: null,
  inductance_H: null,
  accuracy: 0.03,
})
const put = (change: Partial<Ring>) => ownRing.set((ring) => ({ ...ring, ...change }))

/** What a calliper with a vernier reads to. */
const calliper_m = 50e-6

const identify = ({ outer_m, inner_m, height_m, turns, inductance_H, accuracy }: Ring) => {
  if (outer_m === null || inner_m === null || height_m === null) return null
  if (turns === null || inductance_H === null) return null
  return identifyRing({ outer_m, inner_m, height_m }, turns, inductance_H, {
    inductance: accuracy,
    resistance: 0.03,
    calliper_m,
  })
}

const Found = ({ ring }: { ring: UnknownRing }) => {
  const mu = ring.permeability
  return (
    <div className="own-found" role="status">
      <dl className="figures-wound">
        <div>
          <dt>{words.factor}</dt>
          <dd>{`${show(ring.factor_H.value, 'H')} ± ${showPercent(ring.factor_H.uncertainty)}`}</dd>
        </div>
        <div>
          <dt>{words.permeability}</dt>
          <dd>{`${Number(mu.value.toPrecision(3))} ± ${showPercent(mu.uncertainty)}`}</dd>
        </div>
      </dl>
      <p>
        <b>{words.grade}.</b> {sentence(ring.grade.reason)} <strong>{words.unusable}</strong>
      </p>
      {ring.grade.likely === 'powder' && <p>{text.powder}</p>}
    </div>
  )
}

/** An unmarked ring measured with a calliper and an inductance meter. */
export const OwnRing = () => {
  const ring = useStore(ownRing, (r) => r)
  const result = useMemo(() => identify(ring), [ring])
  return (
    <section className="own-core">
      <h3>{text.title}</h3>
      <p className="lead">{text.lead}</p>
      <div className="own-grid">
        <div className="own-fields">
          <Numbered label={text.outer} value={ring.outer_m} unit="m" change={(outer_m) => put({ outer_m })} />
          <Numbered label={text.inner} value={ring.inner_m} unit="m" change={(inner_m) => put({ inner_m })} />
          <Numbered
            label={text.height}
            value={ring.height_m}
            unit="m"
            change={(height_m) => put({ height_m })}
          />
        </div>
        <div className="own-fields">
          <Numbered label={text.turns} value={ring.turns} unit="" whole change={(turns) => put({ turns })} />
          <Numbered
            label={text.reads}
            value={ring.inductance_H}
            unit="H"
            change={(inductance_H) => put({ inductance_H })}
          />
          <Numbered
            label={text.accuracy}
            value={ring.accuracy}
            unit="%"
            change={(accuracy) => put({ accuracy: accuracy ?? 0.03 })}
          />
        </div>
      </div>
      {result === null && <p className="empty">{text.waiting}</p>}
      {result && !result.ok && (
        <ul className="problem" role="alert">
          {result.problems.map((problem) => (
            <li key={problem.path}>{problem.message}</li>
          ))}
        </ul>
      )}
      {result?.ok && <Found ring={result.value} />}
    </section>
  )
}
