/** How a command ended, for scripts: all limits hold (or the work is done), some limit is broken, bad input. */
export const exitCode = { done: 0, limitBroken: 1, badInput: 2 } as const

/** Where a command writes; tests give their own. */
export type Screen = {
  out: (text: string) => void
  error: (text: string) => void
}

export type Command = {
  name: string
  /** One line in the list of commands. */
  summary: string
  /** Whole help text; teaches with examples. */
  help: string
  run: (args: string[], screen: Screen) => Promise<number>
}

/** What the person typed is not usable; the message names it and says what would be. */
export class InputError extends Error {}

/** Text for a terminal: the thin spaces that stand between number and unit on paper become plain ones. */
export const plain = (text: string): string => text.replace(/[\u202f\u00a0]/g, ' ')
