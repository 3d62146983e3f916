import { useCallback, useEffect, useRef, useState } from 'react'
import { mergeStates, type SearchState } from '../../../engine/search/index.ts'
import type { Problem } from '../../../engine/supply/result.ts'
import { type Asked, ask, workerCount } from './answer-pool.ts'
import type { Offers, Question } from './messages.ts'

/** A search as it stands. */
export interface Search {
  readonly is: 'idle' | 'working' | 'done' | 'stopped'
  /** Of the cores and chips, 0 to 1. */
  readonly fraction: number
  readonly state: SearchState | null
  readonly offers: Offers | null
  readonly problems: readonly Problem[]
}

const idle: Search = { is: 'idle', fraction: 0, state: null, offers: null, problems: [] }
/** Typing settles for this long before the drawer is searched. */
const settle_ms = 250
/** Time between two showings of what has been found so far. */
const showEvery_ms = 350

/** How far the shares of a search have come. */
const fractionOf = (states: readonly SearchState[]): number => {
  const blocks = states[0]?.blocks ?? 1
  const gone = states.reduce((sum, s) => sum + Math.min(blocks, s.next) / blocks, 0)
  return states.length === 0 ? 0 : gone / states.length
}

/** Searches beside the page whenever the question changes, on all cores, with the best so far as it comes. */
export function useSearch(question: Question | null): Search & { readonly stop: () => void } {
  const [search, setSearch] = useState<Search>(idle)
  const running = useRef<readonly Asked[]>([])
  const asked = useRef(false)
  const stop = useCallback(() => {
    for (const one of running.current) one.cancel()
    running.current = []
    setSearch((s) => (s.is === 'working' ? { ...s, is: 'stopped' } : s))
  }, [])
  useEffect(() => {
    if (question === null) {
      setSearch(idle)
      return
    }
    const timer = setTimeout(
      () => {
        asked.current = true
        running.current = begin(question, (change) => setSearch(change))
      },
      asked.current ? settle_ms : 0,
    )
    setSearch((s) => ({ ...s, is: 'working', fraction: 0, problems: [] }))
    return () => {
      clearTimeout(timer)
      for (const one of running.current) one.cancel()
      running.current = []
    }
  }, [question])
  return { ...search, stop }
}

/** One search: a share for each worker; what they have found is put together and shown now and then. */
function begin(question: Question, show: (change: (s: Search) => Search) => void): Asked[] {
  const of = workerCount()
  const shares: (SearchState | undefined)[] = new Array(of)
  const asked: Asked[] = []
  let shown = 0
  let asking = false
  const found = () => shares.filter((s) => s !== undefined)
  const offers = (state: SearchState, last: boolean) => {
    if (asking && !last) return
    asking = true
    asked.push(
      ask<'offers'>(
        { kind: 'offers', question, state },
        {
          done: (value) => {
            asking = false
            if (value.ok)
              show((s) => ({
                ...s,
                offers: value.value,
                is: last ? 'done' : s.is,
                fraction: last ? 1 : s.fraction,
              }))
          },
          failed: () => {
            asking = false
          },
        },
      ),
    )
  }
  const take = (share: number, state: SearchState) => {
    shares[share] = state
    const merged = mergeStates(found())
    const last = found().length === of && merged.done
    show((s) => ({ ...s, state: merged, fraction: fractionOf(found()) * (found().length / of) }))
    const now = performance.now()
    if (last || (merged.front.length > 0 && now - shown > showEvery_ms)) {
      shown = now
      offers(merged, last)
    }
  }
  for (let share = 0; share < of; share++)
    asked.push(
      ask<'search'>(
        { kind: 'search', question, share, of },
        {
          part: (value) => take(share, value as SearchState),
          done: (value) => {
            if (value.ok) take(share, value.value)
            else show((s) => ({ ...s, is: 'done', problems: value.problems, offers: null, state: null }))
          },
          failed: (message) =>
            show((s) => ({ ...s, is: 'done', problems: [{ path: '', message }], offers: null, state: null })),
        },
      ),
    )
  return asked
}
