/** What is wrong, in one sentence, and the field or place it is wrong at (a path such as `build.places.core`). */
export interface Problem {
  readonly path: string
  readonly message: string
}

/** A value, or why there is none. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] }

export const succeed = <T>(value: T): Result<T> => ({ ok: true, value })

export const fail = (path: string, message: string): { ok: false; problems: Problem[] } => ({
  ok: false,
  problems: [{ path, message }],
})
