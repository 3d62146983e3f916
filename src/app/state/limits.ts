import { closeMargin } from '../../drawing/supply/schematic-model.ts'
import { type Limit, rankOf, roomInWords } from '../../engine/limits/limit.ts'
import { show, showPercent } from '../fields/show.ts'
import { limitStrings } from '../strings/limits.ts'

export type Standing = 'over' | 'close' | 'holds'

export const standing = (limit: Limit): Standing =>
  !limit.holds ? 'over' : rankOf(limit) < closeMargin ? 'close' : 'holds'

export const countStandings = (limits: readonly Limit[]): Record<Standing, number> => {
  const count = { over: 0, close: 0, holds: 0 }
  for (const limit of limits) count[standing(limit)] += 1
  return count
}

/** Room left as a percentage, or whether a class or count is met. */
export const showRoom = (limit: Limit): string => roomInWords(limit, showPercent)

/** `612 V, at most 595 V`, split in what is and what may be; the rule that the supply runs has no figures. */
export const showAgainst = (limit: Limit): { readonly reading: string; readonly rating: string } =>
  limit.id === 'supply.runs'
    ? { reading: limitStrings.stands, rating: '' }
    : {
        reading: show(limit.reading, limit.unit),
        rating: `${limitStrings.sense[limit.sense]} ${show(limit.rating, limit.unit)}`,
      }
