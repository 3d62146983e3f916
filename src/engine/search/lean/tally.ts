/**
 * Error that a lean reading may have against the whole evaluation, as a margin: a candidate is let go only when a limit
 * is broken by more. Held by a test over random candidates.
 */
export const slack = 0.004
/** Part by which a lean loss may lie above that of the whole evaluation; held by the same test. */
export const lossSlack = 0.01

/** Gathers the weakest of a candidate's margins. */
export interface Tally {
  margin: number
  /** Name of the limit with the weakest margin. */
  id: string
}

export const newTally = (): Tally => ({ margin: Number.POSITIVE_INFINITY, id: '' })

/** Notes a margin; true when it is broken beyond doubt. */
function note(t: Tally, id: string, margin: number): boolean {
  if (!(margin >= t.margin)) {
    t.margin = margin
    t.id = id
  }
  return !(margin >= -slack)
}

export const atMost = (t: Tally, id: string, reading: number, rating: number): boolean =>
  note(t, id, (rating - reading) / Math.abs(rating))

export const atLeast = (t: Tally, id: string, reading: number, rating: number): boolean =>
  note(t, id, (reading - rating) / Math.abs(rating))

/** Temperatures count from ambient. */
export const coolerThan = (
  t: Tally,
  id: string,
  reading_C: number,
  rating_C: number,
  ambient_C: number,
): boolean => note(t, id, (rating_C - reading_C) / Math.abs(rating_C - ambient_C))

/** A class or count: met or not; met, it is no margin. */
export function meets(t: Tally, id: string, met: boolean): boolean {
  if (met) return false
  return note(t, id, -1)
}
