import { closeMargin } from '../../drawing/supply/schematic-model.ts'
import type { Limit } from '../../engine/limits/limit.ts'

export type Standing = 'over' | 'close' | 'holds'

export const standing = (limit: Limit): Standing =>
  !limit.holds ? 'over' : limit.margin < closeMargin ? 'close' : 'holds'

export const countStandings = (limits: readonly Limit[]): Record<Standing, number> => {
  const count = { over: 0, close: 0, holds: 0 }
  for (const limit of limits) count[standing(limit)] += 1
  return count
}
