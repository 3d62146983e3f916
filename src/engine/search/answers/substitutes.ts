import { assess, type Limit, withLoopLimits } from '../../limits/index.ts'
import type { Drawer, Part } from '../../parts/part.ts'
import type { Place, Places } from '../../supply/build.ts'
import { placeKind, type Supply } from '../../supply/supply.ts'

/** A part at hand in place of another, and what it leaves. */
export interface Substitute {
  readonly part: Part
  readonly holds: boolean
  /** What gives first with it. */
  readonly limit: Limit
}

/**
 * Parts of the drawer that could take a place, those that hold all limits first, by the margin that they leave; then
 * those that do not, by how nearly. Every limit is read anew: a chip of lower limit shows as power, a higher one as flux.
 */
export function substitutes(supply: Supply, place: Place, drawer: Drawer): Substitute[] {
  const found: Substitute[] = []
  for (const { part, quantity } of drawer.entries) {
    if (part.kind !== placeKind[place] || quantity === 0 || part.id === supply.build.places[place]) continue
    const changed: Supply = {
      ...supply,
      parts: supply.parts.some((p) => p.id === part.id) ? supply.parts : [...supply.parts, part],
      build: { ...supply.build, places: { ...supply.build.places, [place]: part.id } as Places },
    }
    const judged = judgedOrNull(changed)
    if (judged) found.push({ part, holds: judged.holds, limit: judged.givesFirst })
  }
  return found.sort((a, b) => Number(b.holds) - Number(a.holds) || b.limit.margin - a.limit.margin)
}

function judgedOrNull(supply: Supply) {
  try {
    const judged = assess(supply)
    if (!judged.ok) return null
    return judged.value.holds ? withLoopLimits(judged.value) : judged.value
  } catch {
    return null
  }
}
