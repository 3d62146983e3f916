/** What is wrong, in one sentence, and the field it is wrong at. */
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

/** A length in millimetres for a sentence. */
export const millimetres = (length_m: number) => `${Number((length_m * 1000).toPrecision(4))} mm`
