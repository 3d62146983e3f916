import type { TimeRunId, TimeRunOptions, TimeRunOutcome } from '../../../engine/stage/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { createStore } from '../../state/store.ts'
import { type Asked, ask } from './stage-pool.ts'

/** One run of one supply. */
export interface RunState {
  readonly of: Supply
  /** Part done while it is under way, null when it waits or is not running. */
  readonly running: boolean
  readonly fraction: number
  readonly outcome: TimeRunOutcome | null
  readonly problem: string | null
}

/** Runs by supply id and run, `id run`. */
export const runStates = createStore<Readonly<Record<string, RunState>>>({})

export const runKey = (supply: Supply, id: TimeRunId): string => `${supply.id} ${id}`

const asked = new Map<string, Asked<'run'>>()

const put = (key: string, change: Partial<RunState> & Pick<RunState, 'of'>): void =>
  runStates.set((all) => {
    const before = all[key] ?? { of: change.of, running: false, fraction: 0, outcome: null, problem: null }
    return { ...all, [key]: { ...before, ...change } }
  })

export const cancelRun = (supply: Supply, id: TimeRunId): void => {
  const key = runKey(supply, id)
  const one = asked.get(key)
  asked.delete(key)
  one?.cancel()
  if (one) put(key, { of: supply, running: false, fraction: 0 })
}

/** Follows a supply through one run in a worker. */
export const startRun = async (
  supply: Supply,
  id: TimeRunId,
  options: TimeRunOptions = {},
): Promise<void> => {
  cancelRun(supply, id)
  const key = runKey(supply, id)
  const one = ask(
    supply,
    { kind: 'run', run: id, options },
    { progress: (fraction) => put(key, { of: supply, fraction }) },
  )
  asked.set(key, one)
  put(key, { of: supply, running: true, fraction: 0, problem: null })
  const outcome = await one.answer
  if (asked.get(key) !== one) return
  asked.delete(key)
  const done = { of: supply, running: false, fraction: 0 }
  if (outcome.is === 'problems') put(key, { ...done, outcome: null, problem: outcome.messages[0] ?? '' })
  else if (outcome.is === 'answer')
    put(
      key,
      outcome.value.ok
        ? { ...done, outcome: outcome.value, problem: null }
        : { ...done, outcome: null, problem: outcome.value.message },
    )
}
