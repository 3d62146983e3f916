import { createStore } from './store.ts'

/** What fills the middle of the working view. */
export const benchViews = [
  'schematic',
  'winding',
  'loop',
  'waveforms',
  'readings',
  'heat',
  'mains',
  'first-light',
  'answers',
  'papers',
] as const
export type BenchView = (typeof benchViews)[number]

export type Route =
  | { readonly at: 'shelf' }
  | { readonly at: 'drawer' }
  | { readonly at: 'answers' }
  | {
      readonly at: 'supply'
      readonly id: string
      readonly view: BenchView | null
      readonly focus: string | null
    }
  | { readonly at: 'compare'; readonly left: string; readonly right: string }

const isBenchView = (text: string | undefined): text is BenchView => benchViews.includes(text as BenchView)

/** The address after `#`, which says the supply, the view and what is looked at; anything unknown is the shelf. */
export const parseRoute = (hash: string): Route => {
  const [path = '', query = ''] = hash.replace(/^#\/?/, '').split('?')
  const [head, first, second] = path.split('/').map(decodeURIComponentSafely)
  if (head === 'supply' && first)
    return {
      at: 'supply',
      id: first,
      view: isBenchView(second) ? second : null,
      focus: new URLSearchParams(query).get('at'),
    }
  if (head === 'compare' && first && second) return { at: 'compare', left: first, right: second }
  if (head === 'drawer') return { at: 'drawer' }
  if (head === 'answers') return { at: 'answers' }
  return { at: 'shelf' }
}

const decodeURIComponentSafely = (text: string): string => {
  try {
    return decodeURIComponent(text)
  } catch {
    return ''
  }
}

export const formatRoute = (route: Route): string => {
  switch (route.at) {
    case 'shelf':
      return '#/'
    case 'drawer':
      return '#/drawer'
    case 'answers':
      return '#/answers'
    case 'compare':
      return `#/compare/${encodeURIComponent(route.left)}/${encodeURIComponent(route.right)}`
    case 'supply': {
      const view = route.view === null ? '' : `/${route.view}`
      const focus = route.focus === null ? '' : `?at=${encodeURIComponent(route.focus)}`
      return `#/supply/${encodeURIComponent(route.id)}${view}${focus}`
    }
  }
}

export const routeStore = createStore<Route>({ at: 'shelf' })

/** Follows the address bar; call once. */
export const followAddress = (): void => {
  const read = () => routeStore.set(() => parseRoute(location.hash))
  addEventListener('hashchange', read)
  read()
}

/** Goes to a route; `replace` leaves no entry for the back button, for small moves inside a view. */
export const go = (route: Route, replace = false): void => {
  const hash = formatRoute(route)
  if (hash === location.hash) return
  if (replace) {
    history.replaceState(null, '', hash)
    routeStore.set(() => route)
  } else location.hash = hash
}
