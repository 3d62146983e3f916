import { go, routeStore } from '../../state/route.ts'
import { useStore } from '../../state/store.ts'

/** Parts of the view; the address tells which, after `?at=`. */
export const transformerParts = ['wound', 'inductance', 'conductor', 'measured', 'own-core'] as const
export type TransformerPart = (typeof transformerParts)[number]

export const useTransformerPart = (): TransformerPart =>
  useStore(routeStore, (route) => {
    const focus = route.at === 'supply' ? route.focus : null
    return transformerParts.includes(focus as TransformerPart) ? (focus as TransformerPart) : 'wound'
  })

export const showTransformerPart = (part: TransformerPart): void => {
  const route = routeStore.get()
  if (route.at === 'supply') go({ ...route, focus: part }, true)
}
