import { useEffect, useMemo, useRef } from 'react'
import { createStore, useStore } from '../../state/store.ts'
import type { Question } from './messages.ts'
import { idle, runFor, type Search } from './search-run.ts'

/** Typing settles for this long before the drawer is searched. */
const settle_ms = 250
const nothing = createStore<Search>(idle)

/**
 * Searches beside the page whenever the question changes, on all cores, with the best so far as it comes. A search that
 * the person stopped waits until it is told to go on; one that was only left goes on when it is looked at again.
 */
export function useSearch(
  question: Question | null,
): Search & { readonly stop: () => void; readonly goOn: () => void } {
  const run = useMemo(() => (question === null ? null : runFor(question)), [question])
  const asked = useRef(false)
  useEffect(() => {
    if (run === null) return
    const start = () => {
      asked.current = true
      if (run.search.get().is === 'idle') run.go()
    }
    const timer = setTimeout(start, asked.current ? settle_ms : 0)
    return () => {
      clearTimeout(timer)
      run.halt('page')
    }
  }, [run])
  const search = useStore(run?.search ?? nothing, (s) => s)
  return { ...search, stop: () => run?.halt('person'), goOn: () => run?.go() }
}
