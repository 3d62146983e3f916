import type { Tally } from './tally.ts'

/** What the lean evaluation says of a candidate. */
export type LeanAnswer =
  | { readonly is: 'breaks' }
  | { readonly is: 'unsure' }
  /** Not looked at to the end, because what is known of it is outdone already. */
  | { readonly is: 'outdone' }
  | ({ readonly is: 'holds' } & LeanMeasures)

/** `margin`: the most that the whole evaluation can find for the weakest limit; it may find less. */
export interface LeanMeasures {
  readonly margin: number
  readonly loss_W: number
  readonly effort: number
}

/** Flux at the greatest current limit, by the bulk's crest. */
export type FluxAt = (crest_V: number) => number

/** How thoroughly a candidate is judged. */
export interface Zeal {
  /** Reads every limit, where else the first broken one ends it. */
  readonly all: boolean
  /** True where such measures are of no use, so that the candidate need not be judged to its end. */
  readonly outdone: (m: LeanMeasures) => boolean
}

export const breaks: LeanAnswer = { is: 'breaks' }

/** What has no working point at all. */
export function stopped(t: Tally): LeanAnswer {
  t.margin = -1
  t.id = 'supply.runs'
  return breaks
}
