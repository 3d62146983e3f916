import type { Limit } from '../../engine/limits/limit.ts'

/** Room below which a limit that holds is called close. */
const close = 0.1

export type Standing = 'over' | 'close' | 'holds'

export const standing = (limit: Limit): Standing =>
  !limit.holds ? 'over' : limit.margin < close ? 'close' : 'holds'

export const countStandings = (limits: readonly Limit[]): Record<Standing, number> => {
  const count = { over: 0, close: 0, holds: 0 }
  for (const limit of limits) count[standing(limit)] += 1
  return count
}
