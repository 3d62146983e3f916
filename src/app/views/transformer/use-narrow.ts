import { useSyncExternalStore } from 'react'

const narrow = matchMedia('(max-width: 40rem)')

const subscribe = (listener: () => void) => {
  narrow.addEventListener('change', listener)
  return () => narrow.removeEventListener('change', listener)
}

/** Whether the page is as narrow as a phone. */
export const useNarrow = (): boolean => useSyncExternalStore(subscribe, () => narrow.matches)
