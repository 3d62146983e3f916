import { mergeStates, type SearchState, type Verdicts } from '../../../engine/search/index.ts'
import type { Problem } from '../../../engine/supply/result.ts'
import { createStore, type Store } from '../../state/store.ts'
import { type Asked, ask, workerCount } from './answer-pool.ts'
import type { Offers, Question, SearchPart } from './messages.ts'

/** A search as it stands. */
export interface Search {
  readonly is: 'idle' | 'working' | 'done' | 'stopped'
  /** Of the cores and chips, 0 to 1. */
  readonly fraction: number
  readonly state: SearchState | null
  readonly offers: Offers | null
  readonly problems: readonly Problem[]
}

/** A search that can be stopped and gone on with; what it has found stays. */
export interface Run {
  readonly question: Question
  readonly search: Store<Search>
  readonly go: () => void
  /** Gives the workers back; `stopped` by the person, else until it is looked at again. */
  readonly halt: (by: 'person' | 'page') => void
}

export const idle: Search = { is: 'idle', fraction: 0, state: null, offers: null, problems: [] }
/** Time between two showings of what has been found so far. */
const showEvery_ms = 350
/** Searches kept for coming back to. */
const mostKept = 4

const sameQuestion = (a: Question, b: Question): boolean =>
  a.drawer === b.drawer &&
  a.buy === b.buy &&
  a.effort === b.effort &&
  a.seed === b.seed &&
  JSON.stringify(a.need) === JSON.stringify(b.need)

let kept: readonly Run[] = []

/** The search for a question: the one that is kept, or a new one. */
export function runFor(question: Question): Run {
  const known = kept.find((run) => sameQuestion(run.question, question))
  const run = known ?? newRun(question)
  kept = [run, ...kept.filter((r) => r !== run)].slice(0, mostKept)
  return run
}

function newRun(question: Question): Run {
  const of = workerCount()
  const shares: (SearchState | null)[] = Array.from({ length: of }, () => null)
  const search = createStore<Search>(idle)
  let asked: Asked[] = []
  let shown = 0
  let asking = false

  const fail = (problems: readonly Problem[]) => {
    halt('page')
    search.set((s) => ({ ...s, is: 'done', problems, offers: null, state: null }))
  }
  const askOffers = (state: SearchState, last: boolean, verdicts: Verdicts = []) => {
    if (asking && !last) return
    asking = true
    const done = last ? ({ is: 'done', fraction: 1 } as const) : {}
    asked.push(
      ask<'offers'>(
        { kind: 'offers', question, state, verdicts },
        {
          done: (value) => {
            asking = false
            if (!value.ok) return
            const found = last ? { state: value.value.state } : {}
            search.set((s) => ({ ...s, offers: value.value, ...found, ...done }))
          },
          failed: (message) => fail([{ path: '', message }]),
        },
      ),
    )
  }
  /** Shares the proof of what is to be shown between the workers, which have nothing else to do by then. */
  const prove = (state: SearchState) => {
    const verdicts: Verdicts[number][] = []
    let left = of
    for (let share = 0; share < of; share++)
      asked.push(
        ask<'prove'>(
          { kind: 'prove', question, state, share, of },
          {
            done: (value) => {
              if (value.ok) verdicts.push(...value.value)
              if (--left === 0) askOffers(state, true, verdicts)
            },
            failed: (message) => fail([{ path: '', message }]),
          },
        ),
      )
  }
  const take = (share: number, { state, offers }: SearchPart) => {
    shares[share] = state
    if (!state.done)
      for (const [other, one] of asked.slice(0, of).entries()) if (other !== share) one.tell(state.front)
    const found = shares.filter((s) => s !== null)
    const merged = mergeStates(found)
    const last = found.length === of && merged.done
    const fraction = found.reduce((sum, s) => sum + Math.min(1, s.next / Math.max(1, s.blocks)), 0) / of
    search.set((s) => ({ ...s, state: merged, fraction, offers: s.offers ?? offers }))
    const now = performance.now()
    if (last) prove(merged)
    else if (merged.front.length > 0 && offers === null && now - shown > showEvery_ms)
      askOffers(merged, false)
    if (merged.front.length > 0) shown = now
  }
  const go = () => {
    if (search.get().is === 'working' || search.get().is === 'done') return
    asking = false
    search.set((s) => ({ ...s, is: 'working' }))
    asked = shares.map((from, share) =>
      ask<'search'>(
        { kind: 'search', question, share, of, from },
        {
          part: (value) => take(share, value as SearchPart),
          done: (value) =>
            value.ok ? take(share, { state: value.value, offers: null }) : fail(value.problems),
          failed: (message) => fail([{ path: '', message }]),
        },
      ),
    )
  }
  const halt = (by: 'person' | 'page') => {
    for (const one of asked) one.cancel()
    asked = []
    search.set((s) => (s.is === 'working' ? { ...s, is: by === 'person' ? 'stopped' : 'idle' } : s))
  }
  return { question, search, go, halt }
}
