import { starterDrawer } from '../../../engine/parts/starter/index.ts'
import {
  alongside,
  beginSearch,
  type Chosen,
  cheapestChanges,
  chooseFew,
  chooseProved,
  mostPower,
  offersOf,
  proveShare,
  rangeMap,
  refusedText,
  retarget,
  type SearchState,
  type Space,
  searchAll,
  searchOptions,
  searchSpace,
  searchStep,
  serversOf,
  substitutes,
  supplyOfOffer,
  takeVerdicts,
  thoroughness,
  whyNot,
  withProposal,
} from '../../../engine/search/index.ts'
import { fail, type Result, succeed } from '../../../engine/supply/result.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import type { Job, Offers, Question, Replies, Reply, Request, SearchPart } from './messages.ts'

const scope = self as unknown as DedicatedWorkerGlobalScope

/** Candidates between two looks at the clock, and time between two reports. */
const stride = 400
const reportEvery_ms = 150
/** Answers shown of a front. */
const shownOffers = 9

/** Spaces of the last questions: a search and what follows it ask for the same one. */
let lastKey = ''
let lastSpace: Result<Space> | null = null
const spaceOf = (question: Question): Result<Space> => {
  const key = JSON.stringify(question)
  if (key !== lastKey || lastSpace === null) {
    lastKey = key
    lastSpace = searchSpace(
      question.need,
      question.drawer,
      searchOptions(question.effort, {}, question.seed),
      question.buy ? starterDrawer : null,
    )
  }
  return lastSpace
}

/** What is shown of a search: quickly while it goes on, each answer proved on the solved circuit once it is done. */
const shown = (space: Space, searched: SearchState): Offers => {
  const state = withProposal(space, searched)
  const chosen: Chosen = state.done
    ? chooseProved(space, state.front, shownOffers)
    : { answers: chooseFew(state.front, shownOffers), refused: [] }
  const refused = new Set(chosen.refused.map(({ answer }) => answer))
  const offers = offersOf(space, chosen.answers)
  return {
    offers,
    supplies: offers.map((offer) => supplyOfOffer(space, offer)),
    thoroughness: `${thoroughness(space, state)} ${refusedText(chosen)}`.trimEnd(),
    all: state.front.filter((answer) => !refused.has(answer)),
    state,
  }
}

/** Lets messages in between two steps, so that a search can be given up without losing the warm worker. */
const breath = new MessageChannel()
const breathe = (): Promise<void> =>
  new Promise((resolve) => {
    breath.port1.onmessage = () => resolve()
    breath.port2.postMessage(null)
  })
let givenUp = -1
/** What others have found beside the search of an id, as far as it has not been taken in. */
let heard: { readonly id: number; readonly front: SearchState['front'] } | null = null

/** Goes through a share of the blocks; null where it was given up. */
const search = async (
  { question, share, of, from }: Extract<Job, { kind: 'search' }>,
  report: (part: SearchPart) => void,
  id: number,
): Promise<Replies['search'] | null> => {
  if (from?.done) return succeed(from)
  const space = spaceOf(question)
  if (!space.ok) return space
  let state = from ?? beginSearch(space.value, share, of)
  let first = state.front.length === 0
  let said = performance.now()
  while (!state.done) {
    state = searchStep(space.value, state, stride)
    const now = performance.now()
    const answered = first && state.front.length > 0
    if (!state.done && (answered || now - said >= reportEvery_ms)) {
      first &&= !answered
      said = now
      report({ state, offers: answered ? shown(space.value, state) : null })
    }
    await breathe()
    if (givenUp === id) return null
    if (heard?.id === id) {
      state = alongside(state, heard.front)
      heard = null
    }
  }
  return succeed(state)
}

const withSpace = <T>(question: Question, work: (space: Space) => T): Result<T> => {
  const space = spaceOf(question)
  return space.ok ? succeed(work(space.value)) : space
}

const best = (space: Space, front: SearchState['front']): Supply =>
  supplyOfOffer(space, offersOf(space, chooseFew(front, 1))[0]!)

const power = ({ question, core, switcher }: Extract<Job, { kind: 'power' }>): Replies['power'] => {
  const found = mostPower(question.need, question.drawer, { core, switcher })
  if (!found.ok) return found
  const { space, ...rest } = found.value
  return succeed({ ...rest, supply: best(space, rest.front) })
}

const one = ({ need, drawer, core, switcher }: Extract<Job, { kind: 'one' }>): Replies['one'] => {
  const space = searchSpace(need, drawer, searchOptions('usual', { core, switcher }))
  if (!space.ok) return space
  const { front } = searchAll(space.value)
  return front.length === 0 ? fail('need', 'nothing holds every limit') : succeed(best(space.value, front))
}

const answer = (job: Exclude<Job, { kind: 'search' }>): Replies[Job['kind']] => {
  switch (job.kind) {
    case 'prove':
      return withSpace(job.question, (space) =>
        proveShare(space, job.state.front, shownOffers, job.share, job.of),
      )
    case 'offers':
      return withSpace(job.question, (space) => {
        takeVerdicts(space, job.verdicts)
        return shown(space, job.state)
      })
    case 'why':
      return withSpace(job.question, (space) => whyNot(space, job.state))
    case 'power':
      return power(job)
    case 'changes':
      return cheapestChanges(job.supply, job.drawer)
    case 'substitutes':
      return substitutes(job.supply, job.place, job.drawer)
    case 'range':
      return rangeMap(job.supply, job.drawer)
    case 'retarget':
      return retarget(job.supply, job.drawer, job.output_V, job.output_A)
    case 'servers':
      return serversOf(job.need, job.drawer)
    case 'one':
      return one(job)
  }
}

const reply = (message: Reply): void => scope.postMessage(message)

const work = async (id: number, job: Job): Promise<void> => {
  try {
    if (job.kind !== 'search') {
      reply({ id, is: 'answer', value: plain(job, answer(job)) })
      return
    }
    const report = (part: SearchPart) => reply({ id, is: 'part', value: part })
    const value = await search(job, report, id)
    reply({ id, is: value === null ? 'gone' : 'answer', value })
  } catch (error) {
    reply({ id, is: 'failed', value: error instanceof Error ? error.message : String(error) })
  }
}

scope.onmessage = ({ data }: MessageEvent<Request>) => {
  const { id } = data
  if ('beside' in data) heard = { id, front: data.beside }
  else if (data.job === null) givenUp = id
  else void work(id, data.job)
}

/** Assessments hold functions for what is worked out late; what is shown of them is plain, and can be copied. */
const plain = (job: Job, value: unknown): unknown =>
  job.kind === 'changes' || job.kind === 'retarget'
    ? JSON.parse(JSON.stringify(value, withoutEvaluation))
    : value

const withoutEvaluation = (key: string, value: unknown): unknown => (key === 'evaluation' ? undefined : value)
