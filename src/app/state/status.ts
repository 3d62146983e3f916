import { createStore } from './store.ts'

export interface Status {
  readonly text: string
  readonly tone: 'plain' | 'wrong'
  readonly action: { readonly label: string; readonly run: () => void } | null
  /** Tells two equal messages apart, so that a screen reader says the second one too. */
  readonly turn: number
}

/** The last thing that the page has to say; stays until the next. */
export const status = createStore<Status>({ text: '', tone: 'plain', action: null, turn: 0 })

export const say = (text: string, tone: Status['tone'] = 'plain', action: Status['action'] = null): void =>
  status.set((s) => ({ text, tone, action, turn: s.turn + 1 }))
