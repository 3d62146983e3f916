/** One thing wrong with a file: where, what, and the value that is there. */
export type FileProblem = {
  /** Where in the file, as `build.clamp.voltage_V` or `parts[3].power_W`; empty for the file as a whole. */
  path: string
  /** What is wrong, to be read after the path: `900 is over 600`. */
  message: string
  /** The value found, as short JSON; null where there is none. */
  value: string | null
}

/** A value read from a file, or everything that is wrong with it. `migratedFrom` is an older version, else null. */
export type FileResult<T> =
  | { ok: true; value: T; migratedFrom: number | null }
  | { ok: false; problems: FileProblem[] }

/** A path of keys and indices as people read it: `parts[3].power_W`. */
export function readablePath(keys: readonly (string | number | symbol)[]): string {
  let path = ''
  for (const key of keys) {
    if (typeof key === 'number') path += `[${key}]`
    else path += `${path === '' ? '' : '.'}${shortened(String(key), 60)}`
  }
  return path
}

/** Words of a file inside a message: cut where they would fill the screen. */
export const shortened = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, most - 3)}...` : text

/** The value as short JSON for a message; long ones are cut. */
export function readableValue(value: unknown): string | null {
  if (value === undefined) return null
  if (typeof value === 'number' && !Number.isFinite(value)) return String(value)
  if (Array.isArray(value)) return `a list of ${value.length}`
  if (typeof value === 'object' && value !== null) return 'an object'
  const text = JSON.stringify(value) ?? String(value)
  return shortened(text, 60)
}

/** `build.clamp.voltage_V: 900 is over 600`. */
export function problemSentence(problem: FileProblem): string {
  return problem.path === '' ? problem.message : `${problem.path}: ${problem.message}`
}
