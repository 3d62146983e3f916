import { useMemo } from 'react'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { Changed, Miss } from '../../../engine/search/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { setting } from '../../fields/check.ts'
import { editSupply } from '../../state/desk.ts'
import { showRoom } from '../../state/limits.ts'
import { answersStrings } from '../../strings/answers.ts'
import { buildStrings } from '../../strings/build.ts'
import { useAsk } from './use-ask.ts'
import { WindAnew } from './wind-anew.tsx'

const words = answersStrings.mend

/** Takes over build and parts of a changed supply as one step that can be undone. */
export const takeOver = (supply: Supply, changed: Pick<Supply, 'build' | 'parts'>, label: string): void =>
  editSupply(supply.id, {
    label,
    key: null,
    changes: setting(supply, [
      [['build'], changed.build],
      [['parts'], changed.parts],
    ]),
  })

/** What is done, with the place where it is done. */
const inWords = ({ changes }: Changed): string =>
  changes
    .map(({ at, words }) => {
      const place = (buildStrings.places as Readonly<Record<string, string>>)[at]
      const whole = place === undefined ? words : `${place}, ${words}`
      return `${whole.charAt(0).toUpperCase()}${whole.slice(1)}`
    })
    .join('; ')

const Apply = ({ changed, supply }: { changed: Changed; supply: Supply }) => (
  <button
    type="button"
    className="plain"
    aria-label={`${words.apply}: ${inWords(changed)}`}
    onClick={() => takeOver(supply, changed.supply, words.applied)}
  >
    {words.apply}
  </button>
)

const Mended = ({ changed, supply }: { changed: Changed; supply: Supply }) => {
  const { givesFirst } = changed.assessment
  return (
    <li className="mend">
      <p>
        <b>{inWords(changed)}</b>
      </p>
      <p className="answers-quiet">{words.next(givesFirst.title, showRoom(givesFirst))}</p>
      <Apply changed={changed} supply={supply} />
    </li>
  )
}

/** What comes closest where nothing mends it: what is done, and what would still not hold. */
const Nearest = ({ miss, supply }: { miss: Miss; supply: Supply }) => (
  <div className="mend">
    <h4>{words.nearest}</h4>
    <p>
      <b>{inWords(miss)}</b>
    </p>
    <p className="mend-miss">{miss.sentence}</p>
    <Apply changed={miss} supply={supply} />
  </div>
)

/** The cheapest changes that make the supply hold. */
export const MendPart = ({ supply, drawer, holds }: { supply: Supply; drawer: Drawer; holds: boolean }) => {
  const job = useMemo(
    () => (holds ? null : ({ kind: 'changes', supply, drawer } as const)),
    [supply, drawer, holds],
  )
  const reached = useAsk<'changes'>(job)
  const none = reached.is === 'here' && reached.value.answers.length === 0
  const nearest = reached.is === 'here' ? reached.value.nearest : null
  return (
    <section>
      <h3 className="unseen">{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div role="status">
        {holds && <p>{words.holds}</p>}
        {reached.is === 'working' && <p className="answers-waits">{words.working}</p>}
        {reached.is === 'failed' && <p className="answers-wrong">{reached.message}</p>}
        {none && <p>{words.none}</p>}
      </div>
      {nearest && <Nearest miss={nearest} supply={supply} />}
      {none && <WindAnew need={supply.need} drawer={drawer} places={supply.build.places} />}
      {reached.is === 'here' && (
        <ol className="mends">
          {reached.value.answers.map((changed) => (
            <Mended key={inWords(changed)} changed={changed} supply={supply} />
          ))}
        </ol>
      )}
    </section>
  )
}
