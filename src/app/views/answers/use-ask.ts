import { useEffect, useState } from 'react'
import { ask } from './answer-pool.ts'
import type { Job, Replies } from './messages.ts'

/** An answer under way, come, or failed. */
export type Reached<T> =
  | { readonly is: 'idle' }
  | { readonly is: 'working' }
  | { readonly is: 'here'; readonly value: T }
  | { readonly is: 'failed'; readonly message: string }

/** Asks one question whenever it changes, and gives up the one before; null asks nothing. The job must be memoised. */
export function useAsk<K extends Job['kind']>(job: Extract<Job, { kind: K }> | null): Reached<Replies[K]> {
  const [state, setState] = useState<Reached<Replies[K]>>({ is: 'idle' })
  useEffect(() => {
    if (job === null) {
      setState({ is: 'idle' })
      return
    }
    setState({ is: 'working' })
    const asked = ask<K>(job, {
      done: (value) => setState({ is: 'here', value }),
      failed: (message) => setState({ is: 'failed', message }),
    })
    return asked.cancel
  }, [job])
  return state
}
