import { starterDrawer } from '../../../engine/parts/starter/index.ts'
import {
  beginSearch,
  cheapestChanges,
  chooseFew,
  mostPower,
  offersOf,
  rangeMap,
  retarget,
  type SearchState,
  type Space,
  searchOptions,
  searchSpace,
  searchStep,
  substitutes,
  supplyOfOffer,
  thoroughness,
  whyNot,
} from '../../../engine/search/index.ts'
import type { Result } from '../../../engine/supply/result.ts'
import type { Job, Question, Replies, Reply, Request } from './messages.ts'

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
      searchOptions('usual'),
      question.buy ? starterDrawer : null,
    )
  }
  return lastSpace
}

const search = (
  { question, share, of }: Extract<Job, { kind: 'search' }>,
  report: (state: SearchState) => void,
): Replies['search'] => {
  const space = spaceOf(question)
  if (!space.ok) return space
  let state = beginSearch(space.value, share, of)
  let said = 0
  while (!state.done) {
    state = searchStep(space.value, state, stride)
    const now = performance.now()
    if (now - said > reportEvery_ms && !state.done) {
      said = now
      report(state)
    }
  }
  return { ok: true, value: state }
}

const withSpace = <T>(question: Question, work: (space: Space) => T): Result<T> => {
  const space = spaceOf(question)
  return space.ok ? { ok: true, value: work(space.value) } : space
}

const answer = (job: Job, report: (value: unknown) => void): unknown => {
  switch (job.kind) {
    case 'search':
      return search(job, report)
    case 'offers':
      return withSpace(job.question, (space) => {
        const offers = offersOf(space, chooseFew(job.state.front, shownOffers))
        return {
          offers,
          supplies: offers.map((offer) => supplyOfOffer(space, offer)),
          thoroughness: thoroughness(space, job.state),
          all: job.state.front,
        }
      })
    case 'why':
      return withSpace(job.question, (space) => whyNot(space, job.state))
    case 'power': {
      const found = mostPower(job.question.need, job.question.drawer, {
        core: job.core,
        switcher: job.switcher,
      })
      if (!found.ok) return found
      const { space, ...rest } = found.value
      const [best] = offersOf(space, chooseFew(rest.front, 1))
      return { ok: true, value: { ...rest, supply: supplyOfOffer(space, best!) } }
    }
    case 'changes':
      return cheapestChanges(job.supply, job.drawer)
    case 'substitutes':
      return substitutes(job.supply, job.place, job.drawer)
    case 'range':
      return rangeMap(job.supply, job.drawer)
    case 'retarget':
      return retarget(job.supply, job.drawer, job.output_V, job.output_A)
  }
}

const reply = (message: Reply): void => scope.postMessage(message)

scope.onmessage = ({ data: { id, job } }: MessageEvent<Request>) => {
  try {
    const value = answer(job, (part) => reply({ id, is: 'part', value: part }))
    // Assessments hold functions for what is worked out late; what is shown of them is plain.
    reply({ id, is: 'answer', value: plain(job, value) })
  } catch (error) {
    reply({ id, is: 'failed', value: error instanceof Error ? error.message : String(error) })
  }
}

/** Drops from an answer what cannot be copied to the page. */
const plain = (job: Job, value: unknown): unknown =>
  job.kind === 'changes' || job.kind === 'retarget'
    ? JSON.parse(JSON.stringify(value, withoutEvaluation))
    : value

const withoutEvaluation = (key: string, value: unknown): unknown => (key === 'evaluation' ? undefined : value)
