/**
 * Small invertible edits of a project. A change names a place by its path and carries what was there and what
 * comes instead; undo is the same change turned round. Objects along the path are copied, the rest is shared.
 */
export type Path = readonly (string | number)[]

export interface Change {
  readonly path: Path
  readonly from: unknown
  readonly to: unknown
}

/** What one press of undo takes back. */
export interface Step {
  /** What was done, for the status line: `Output voltage 12 V`. */
  readonly label: string
  /** Steps that follow each other with the same key are one step: typing in one field. Null never joins. */
  readonly key: string | null
  readonly changes: readonly Change[]
}

export interface History<T> {
  readonly value: T
  readonly past: readonly Step[]
  readonly future: readonly Step[]
}

/** How many steps are kept. */
const depth = 500

export const valueAt = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>((at, key) => (at as Record<string | number, unknown>)[key], value)

const replaceAt = (value: unknown, path: Path, to: unknown): unknown => {
  const [key, ...rest] = path
  if (key === undefined) return to
  const inner = replaceAt((value as Record<string | number, unknown>)[key], rest, to)
  if (Array.isArray(value)) return value.with(key as number, inner)
  return { ...(value as object), [key]: inner }
}

export const applyChanges = <T>(value: T, changes: readonly Change[]): T =>
  changes.reduce<unknown>((at, change) => replaceAt(at, change.path, change.to), value) as T

const turnRound = (changes: readonly Change[]): Change[] =>
  changes.toReversed().map(({ path, from, to }) => ({ path, from: to, to: from }))

export const beginHistory = <T>(value: T): History<T> => ({ value, past: [], future: [] })

/** Carries out a step; the same history comes back where nothing would change. */
export const take = <T>(history: History<T>, step: Step): History<T> => {
  const changes = step.changes.filter((change) => !Object.is(change.from, change.to))
  if (changes.length === 0) return history
  const last = history.past.at(-1)
  const joins = last !== undefined && step.key !== null && last.key === step.key
  const joined: Step = joins
    ? { ...step, changes: [...last.changes, ...changes] }
    : { label: step.label, key: step.key, changes }
  const past = joins ? [...history.past.slice(0, -1), joined] : [...history.past, joined].slice(-depth)
  return { value: applyChanges(history.value, changes), past, future: [] }
}

/** Ends the joining of steps, so that the next edit of the same field is a step of its own. */
export const settle = <T>(history: History<T>): History<T> => {
  const last = history.past.at(-1)
  if (last === undefined || last.key === null) return history
  return { ...history, past: [...history.past.slice(0, -1), { ...last, key: null }] }
}

export const undo = <T>(history: History<T>): History<T> => {
  const last = history.past.at(-1)
  if (last === undefined) return history
  return {
    value: applyChanges(history.value, turnRound(last.changes)),
    past: history.past.slice(0, -1),
    future: [{ ...last, key: null }, ...history.future],
  }
}

export const redo = <T>(history: History<T>): History<T> => {
  const [next, ...future] = history.future
  if (next === undefined) return history
  return {
    value: applyChanges(history.value, next.changes),
    past: [...history.past, next],
    future,
  }
}
