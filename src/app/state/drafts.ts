import { createStore } from './store.ts'

/** What stands in a field and is not (yet) a value: kept when the view changes, so that no typing is lost. */
export interface Draft {
  readonly text: string
  /** A sentence that names field, value and limit; null while the text is a value. */
  readonly error: string | null
}

export const drafts = createStore<Readonly<Record<string, Draft>>>({})

export const setDraft = (key: string, draft: Draft | null): void =>
  drafts.set((all) => {
    if (draft === null) {
      if (!(key in all)) return all
      const { [key]: _, ...others } = all
      return others
    }
    return { ...all, [key]: draft }
  })

/** Fields of one supply whose text is no value, by key. */
export const wrongDrafts = (all: Readonly<Record<string, Draft>>, prefix: string): string[] =>
  Object.keys(all).filter((key) => key.startsWith(prefix) && all[key]?.error !== null)
