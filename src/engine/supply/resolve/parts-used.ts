import type { Part } from '../../parts/part.ts'
import type { Place } from '../build.ts'
import type { PartsUsed } from '../design.ts'
import { fail, type Result, succeed } from '../result.ts'
import { placeKind, type Supply } from '../supply.ts'

const placeNames = Object.keys(placeKind) as Place[]

/** The part in every place of a supply. Errors: an id that is not among the supply's parts, or of another kind. */
export function partsUsed(supply: Supply): Result<PartsUsed> {
  const { places } = supply.build
  const byId = new Map<string, Part>()
  for (const part of supply.parts) byId.set(part.id, part)
  const used: Partial<Record<Place, Part | null>> = {}
  for (const place of placeNames) {
    const id = places[place]
    if (id === null) {
      used[place] = null
      continue
    }
    const part = byId.get(id)
    if (!part) return fail(`build.places.${place}`, `no part with id ${id} is in this supply`)
    if (part.kind !== placeKind[place])
      return fail(
        `build.places.${place}`,
        `${place} needs a ${placeKind[place]}, and ${id} is a ${part.kind}`,
      )
    used[place] = part
  }
  return succeed(used as PartsUsed)
}
