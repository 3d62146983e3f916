import { useState } from 'react'
import type { Supply } from '../../../engine/supply/supply.ts'
import { addSupply } from '../../state/desk.ts'
import { go } from '../../state/route.ts'
import { say } from '../../state/status.ts'
import { answersStrings as words } from '../../strings/answers.ts'
import { AnswerList } from './answer-list.tsx'
import { FrontFigure } from './front-figure.tsx'
import type { Question } from './messages.ts'
import { useSearch } from './use-search.ts'
import { WhyNotPart } from './why-not.tsx'

/** Puts a supply on the shelf and goes to it. */
export const openAsSupply = async (supply: Supply): Promise<void> => {
  const id = await addSupply(supply)
  say(words.opened(supply.name))
  go({ at: 'supply', id, view: null, focus: null })
}

/** What the drawer answers to a need: progress, map, list, and why not the rest. */
export const AnswersBody = ({ question }: { question: Question | null }) => {
  const search = useSearch(question)
  const [marked, setMarked] = useState<number | null>(null)
  const { offers, state } = search
  const count = state?.front.length ?? 0
  const open = (index: number) => {
    const supply = offers?.supplies[index]
    if (supply) void openAsSupply(supply)
  }
  const status =
    search.is === 'working'
      ? words.working(Math.round(100 * search.fraction), count)
      : search.is === 'stopped'
        ? words.stopped(count)
        : search.is === 'done' && search.problems.length === 0
          ? words.done(offers?.offers.length ?? 0, count)
          : ''
  return (
    <>
      <div className="answers-state">
        <progress
          aria-label={words.title}
          max={1}
          value={search.fraction}
          data-is={search.is}
          hidden={search.is !== 'working'}
        />
        <p role="status">{status}</p>
        {search.is === 'working' && (
          <button type="button" className="plain" onClick={search.stop}>
            {words.stop}
          </button>
        )}
      </div>
      {search.problems.length > 0 && (
        <div className="problem" role="alert">
          <p>{words.cannot}</p>
          <ul>
            {search.problems.map(({ path, message }) => (
              <li key={path + message}>{message}</li>
            ))}
          </ul>
        </div>
      )}
      {offers && offers.offers.length > 0 && (
        <div className="answers-main" data-stale={search.is === 'working' || undefined}>
          <FrontFigure offers={offers} marked={marked} open={open} />
          <AnswerList offers={offers.offers} mark={setMarked} open={open} />
        </div>
      )}
      {question !== null && state !== null && search.is === 'done' && (
        <WhyNotPart question={question} state={state} />
      )}
      {offers && search.is !== 'working' && (
        <details className="why-not">
          <summary>{words.howTitle}</summary>
          <p className="lead">{offers.thoroughness}</p>
          <p className="lead">{words.effortMeans}</p>
        </details>
      )}
    </>
  )
}
