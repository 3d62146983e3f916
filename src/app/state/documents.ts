import type { Outcome } from '../storage/storage.ts'
import { beginHistory, type History } from './edits.ts'

/** How the newest content stands against what is kept. */
export type SaveState =
  | { readonly is: 'saved' }
  | { readonly is: 'waiting' }
  | { readonly is: 'saving' }
  | { readonly is: 'conflict' }
  | { readonly is: 'failed'; readonly message: string }

/** Something that is edited, with its history and where its saving stands. */
export interface Doc<T> {
  readonly history: History<T>
  /** Names the content that storage had last; null while it was never kept. */
  readonly tag: string | null
  readonly save: SaveState
}

export const beginDoc = <T>(value: T, tag: string | null): Doc<T> => ({
  history: beginHistory(value),
  tag,
  save: tag === null ? { is: 'waiting' } : { is: 'saved' },
})

/** The document with another history; unsaved when its content is another. */
export const withHistory = <T>(doc: Doc<T>, history: History<T>): Doc<T> => {
  if (history === doc.history) return doc
  const changed = history.value !== doc.history.value
  return { ...doc, history, save: changed && doc.save.is !== 'conflict' ? { is: 'waiting' } : doc.save }
}

export interface Saver {
  /** Saves soon; more calls before then are one save. */
  readonly soon: () => void
  /** Saves now, and resolves when nothing is left to save or saving cannot go on. */
  readonly now: () => Promise<void>
}

/**
 * Keeps one document saved: a moment after the last edit, one write at a time, each replacing exactly the content
 * of the one before. After a conflict nothing is written until the person has decided.
 */
export const createSaver = <T>(
  read: () => Doc<T> | undefined,
  update: (change: (doc: Doc<T>) => Doc<T>) => void,
  write: (value: T, replaces: string | null) => Promise<Outcome<string>>,
  pause_ms = 500,
): Saver => {
  let timer: ReturnType<typeof setTimeout> | undefined
  let running: Promise<void> | null = null

  const saveAll = async (): Promise<void> => {
    for (;;) {
      const doc = read()
      if (doc === undefined || doc.save.is !== 'waiting') return
      const value = doc.history.value
      update((d) => ({ ...d, save: { is: 'saving' } }))
      const outcome = await write(value, doc.tag)
      update((d) => {
        if (!outcome.ok)
          return {
            ...d,
            save:
              outcome.why === 'conflict' ? { is: 'conflict' } : { is: 'failed', message: outcome.message },
          }
        return {
          ...d,
          tag: outcome.value,
          save: d.history.value === value ? { is: 'saved' } : { is: 'waiting' },
        }
      })
    }
  }

  const now = (): Promise<void> => {
    clearTimeout(timer)
    if (running === null)
      running = saveAll().finally(() => {
        running = null
      })
    return running
  }

  return {
    now,
    soon: () => {
      clearTimeout(timer)
      timer = setTimeout(now, pause_ms)
    },
  }
}
