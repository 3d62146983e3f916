import { useSyncExternalStore } from 'react'

export interface Store<T> {
  readonly get: () => T
  /** Replaces the state by what `change` makes of it; the same object means nothing changed. */
  readonly set: (change: (state: T) => T) => void
  readonly subscribe: (listener: () => void) => () => void
}

/** A value that can be watched. Listeners run after each real change, in the order in which they came. */
export const createStore = <T>(initial: T): Store<T> => {
  let state = initial
  const listeners = new Set<() => void>()
  return {
    get: () => state,
    set: (change) => {
      const next = change(state)
      if (Object.is(next, state)) return
      state = next
      for (const listener of [...listeners]) listener()
    },
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

/** A part of a store's state; `select` must return the same object while nothing in it changed. */
export const useStore = <T, S>(store: Store<T>, select: (state: T) => S): S =>
  useSyncExternalStore(store.subscribe, () => select(store.get()))
