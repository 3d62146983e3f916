import type { Drawer, PartKind, PartOf } from '../parts/part.ts'

/** All parts of one kind that a drawer still holds. */
export const held = <K extends PartKind>(drawer: Drawer, kind: K): PartOf<K>[] => {
  const found: PartOf<K>[] = []
  for (const { part, quantity } of drawer.entries)
    if (part.kind === kind && quantity !== 0) found.push(part as PartOf<K>)
  return found
}

/** The part with the least cost among those that will do; the least of all where none will, null of an empty list. */
export function cheapest<T>(
  parts: readonly T[],
  willDo: (part: T) => boolean,
  cost: (part: T) => number,
): T | null {
  let best: T | null = null
  for (const part of parts) if (willDo(part) && (best === null || cost(part) < cost(best))) best = part
  return best
}

/** Like `cheapest`; where none will do, the one nearest to doing, by a figure that grows as it gets nearer. */
export const cheapestOrNearest = <T>(
  parts: readonly T[],
  willDo: (part: T) => boolean,
  cost: (part: T) => number,
  nearness: (part: T) => number,
): T | null =>
  cheapest(parts, willDo, cost) ??
  cheapest(
    parts,
    () => true,
    (part) => -nearness(part),
  )
