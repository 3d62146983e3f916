import { createStore } from '../../state/store.ts'

/** Sections of the build that are unfolded. */
export const openSections = createStore<ReadonlySet<string>>(new Set(['switch', 'transformer', 'output']))

export const toggleSection = (id: string, open: boolean): void =>
  openSections.set((before) => {
    if (before.has(id) === open) return before
    const next = new Set(before)
    if (open) next.add(id)
    else next.delete(id)
    return next
  })

/** The middle alone on the screen, for a drawing that wants room. */
export const wideBench = createStore(false)

export const toggleWide = (): void => wideBench.set((wide) => !wide)
