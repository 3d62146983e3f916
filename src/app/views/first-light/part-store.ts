import { go, routeStore } from '../../state/route.ts'
import { createStore, useStore } from '../../state/store.ts'

/** Parts of the view; the address tells which, after `?at=`. */
export const firstLightParts = ['plan', 'finder', 'noise', 'log'] as const
export type FirstLightPart = (typeof firstLightParts)[number]

export const useFirstLightPart = (): FirstLightPart =>
  useStore(routeStore, (route) => {
    const focus = route.at === 'supply' ? route.focus : null
    return firstLightParts.includes(focus as FirstLightPart) ? (focus as FirstLightPart) : 'plan'
  })

export const showFirstLightPart = (part: FirstLightPart): void => {
  const route = routeStore.get()
  if (route.at === 'supply') go({ ...route, focus: part }, true)
}

/** Readings left out of the fault finder, by supply and check; a repair makes old ones untrue. */
export const leftOut = createStore<ReadonlySet<string>>(new Set())

export const toggleLeftOut = (key: string): void =>
  leftOut.set((all) => {
    const next = new Set(all)
    if (!next.delete(key)) next.add(key)
    return next
  })
