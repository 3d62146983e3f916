import { useRef, useState } from 'react'
import type { Supply } from '../../../engine/supply/supply.ts'
import { addSupply } from '../../state/desk.ts'
import { go } from '../../state/route.ts'
import { say } from '../../state/status.ts'
import { answersStrings as words } from '../../strings/answers.ts'
import { sentence } from '../transformer/sentence.ts'
import { AnswerList } from './answer-list.tsx'
import { FrontFigure } from './front-figure.tsx'
import type { Offers, Question } from './messages.ts'
import type { Search } from './search-run.ts'
import { useSearch } from './use-search.ts'
import { WhyNotPart } from './why-not.tsx'

/** Puts a supply on the shelf and goes to it. */
export const openAsSupply = async (supply: Supply): Promise<void> => {
  const id = await addSupply(supply)
  say(words.opened(supply.name))
  go({ at: 'supply', id, view: null, focus: null })
}

/** How many answers there are: of a search that is done, those that the solved circuit did not refuse. */
const countOf = ({ is, state, offers }: Search): number =>
  (is === 'done' ? offers?.all.length : state?.front.length) ?? 0

const found = (search: Search): string => {
  const { is, offers, problems } = search
  const count = countOf(search)
  if (problems.length > 0) return ''
  if (is === 'stopped') return words.stopped(count)
  return is === 'done' ? words.done(offers?.offers.length ?? 0, count) : ''
}

/** How the search stands, with what stops it or goes on with it. */
const Standing = ({ search }: { search: ReturnType<typeof useSearch> }) => {
  const working = search.is === 'working' || search.is === 'idle'
  const percent = Math.floor(100 * search.fraction)
  return (
    <div className="answers-state">
      {(working || search.is === 'stopped') && (
        <progress aria-label={words.progress} max={1} value={search.fraction} />
      )}
      {working && <p>{words.working(percent, search.state?.front.length ?? 0)}</p>}
      <p role="status">{found(search)}</p>
      {search.is === 'working' && (
        <button type="button" className="plain" onClick={search.stop}>
          {words.stop}
        </button>
      )}
      {search.is === 'stopped' && (
        <button type="button" className="plain" onClick={search.goOn}>
          {words.goOn}
        </button>
      )}
    </div>
  )
}

/** What the drawer lacks before anything can be put together. */
const Lacking = ({ problems }: { problems: Search['problems'] }) => (
  <div className="answers-lacking" role="alert">
    <p>
      <b>{words.cannot}</b>
    </p>
    <ul>
      {problems.map(({ path, message }) => (
        <li key={path + message}>{sentence(message)}</li>
      ))}
    </ul>
    <a className="plain" href="#/drawer">
      {words.toDrawer}
    </a>
  </div>
)

/** What the drawer answers to a need: progress, map, list, why not the rest, and how thorough that is. */
export const AnswersBody = ({ question, beside }: { question: Question | null; beside?: Supply }) => {
  const search = useSearch(question)
  const [marked, setMarked] = useState<number | null>(null)
  // While a new question has no answer yet, those of the one before stay, dimmed.
  const before = useRef<Offers | null>(null)
  const { state } = search
  const settled = search.is === 'done'
  const offers = search.offers ?? (settled ? null : before.current)
  before.current = offers
  if (question === null) return null
  const open = (index: number) => {
    const supply = search.offers?.supplies[index]
    if (supply) void openAsSupply(supply)
  }
  const none = settled && state !== null && countOf(search) === 0
  return (
    <>
      {search.problems.length > 0 ? <Lacking problems={search.problems} /> : <Standing search={search} />}
      {none && <p className="lead">{words.noneMeans}</p>}
      {offers && offers.offers.length > 0 && (
        <>
          {beside && <Smallest offers={offers} beside={beside} />}
          <div className="answers-main" data-stale={search.offers === null || undefined}>
            <FrontFigure offers={offers} marked={marked} open={open} />
            <AnswerList offers={offers.offers} mark={setMarked} open={open} />
          </div>
        </>
      )}
      {settled && state !== null && <WhyNotPart question={question} state={state} open={none === true} />}
      {search.offers && search.is !== 'working' && (
        <section className="answers-thorough">
          <h3>{words.howTitle}</h3>
          <p className="lead">{search.offers.thoroughness}</p>
          <p className="lead">{words.seedMeans(question.seed)}</p>
        </section>
      )}
    </>
  )
}

/** The smallest core that serves, against the one of a supply. */
const Smallest = ({ offers, beside }: { offers: Offers; beside: Supply }) => {
  const [first] = offers.offers
  const core = beside.parts.find((p) => p.id === beside.build.places.core)
  if (!first) return null
  return (
    <p className="answers-smallest">
      {words.smallest(
        first.core,
        first.answer.measures.size_cm3,
        core?.kind === 'core' ? core.size : (core?.name ?? ''),
      )}
    </p>
  )
}
