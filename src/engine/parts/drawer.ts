import type { Drawer, DrawerEntry, Part, PartKind, PartOf } from './part.ts'

/** Entry of an id, or undefined. */
export const findEntry = (drawer: Drawer, id: string): DrawerEntry | undefined =>
  drawer.entries.find((entry) => entry.part.id === id)

/** Parts of one kind, in the drawer's order. */
export const partsOfKind = <K extends PartKind>(drawer: Drawer, kind: K): PartOf<K>[] =>
  drawer.entries.map((entry) => entry.part).filter((part): part is PartOf<K> => part.kind === kind)

const withEntries = (drawer: Drawer, entries: DrawerEntry[]): Drawer => ({ ...drawer, entries })

const indexOf = (drawer: Drawer, id: string) => {
  const index = drawer.entries.findIndex((entry) => entry.part.id === id)
  if (index < 0) throw new RangeError(`no part with id ${id} is in the drawer ${drawer.name}`)
  return index
}

/** The drawer with one more part at its end. Throws a RangeError when the id is taken. */
export function addPart(drawer: Drawer, part: Part, quantity: number | null = null): Drawer {
  if (findEntry(drawer, part.id))
    throw new RangeError(`id ${part.id} is already in the drawer ${drawer.name}`)
  return withEntries(drawer, [...drawer.entries, { part, quantity }])
}

/** The drawer without a part. Throws a RangeError when the id is not there. */
export const removePart = (drawer: Drawer, id: string): Drawer =>
  withEntries(drawer, drawer.entries.toSpliced(indexOf(drawer, id), 1))

/**
 * The drawer with the part of an id replaced in its place; quantity stays unless given. The new part may carry a
 * new id. Throws a RangeError when the id is not there, or the new one belongs to another part.
 */
export function replacePart(drawer: Drawer, id: string, part: Part, quantity?: number | null): Drawer {
  const index = indexOf(drawer, id)
  if (part.id !== id && findEntry(drawer, part.id))
    throw new RangeError(`id ${part.id} is already in the drawer ${drawer.name}`)
  const entry = { part, quantity: quantity === undefined ? drawer.entries[index]!.quantity : quantity }
  return withEntries(drawer, drawer.entries.with(index, entry))
}

/** An id that the drawer does not hold: the wanted one, or it with -2, -3 and so on, within 80 characters. */
export function freeId(drawer: Drawer, wanted: string): string {
  const taken = new Set(drawer.entries.map((entry) => entry.part.id))
  if (!taken.has(wanted)) return wanted
  for (let n = 2; ; n++) {
    const ending = `-${n}`
    const id = wanted.slice(0, 80 - ending.length) + ending
    if (!taken.has(id)) return id
  }
}

const sameValue = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false
  const [keysA, keysB] = [Object.keys(a), Object.keys(b)]
  return (
    Array.isArray(a) === Array.isArray(b) &&
    keysA.length === keysB.length &&
    keysA.every(
      (key) =>
        Object.hasOwn(b, key) &&
        sameValue((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
    )
  )
}

export interface MergedDrawer {
  readonly drawer: Drawer
  /** Parts whose id was taken by a different part: the id they came with and the one they got. */
  readonly renamed: readonly { readonly from: string; readonly to: string }[]
}

/**
 * The first drawer with the parts of the second put in. A part that is the same in both is one entry and its
 * quantities add up (not counted stays not counted); a different part under the same id gets a new id.
 */
export function mergeDrawers(first: Drawer, second: Drawer): MergedDrawer {
  const renamed: { from: string; to: string }[] = []
  let drawer = first
  for (const { part, quantity } of second.entries) {
    const known = findEntry(drawer, part.id)
    if (!known) drawer = addPart(drawer, part, quantity)
    else if (sameValue(known.part, part)) {
      const sum = known.quantity === null || quantity === null ? null : known.quantity + quantity
      drawer = replacePart(drawer, part.id, part, sum)
    } else {
      const to = freeId(drawer, part.id)
      renamed.push({ from: part.id, to })
      drawer = addPart(drawer, { ...part, id: to }, quantity)
    }
  }
  return { drawer, renamed }
}

export interface DrawerDifference {
  /** Ids that only one of the two holds. */
  readonly onlyFirst: readonly string[]
  readonly onlySecond: readonly string[]
  /** Ids that both hold with different figures, and the top-level fields that differ (`quantity` included). */
  readonly changed: readonly { readonly id: string; readonly fields: readonly string[] }[]
}

/** What is different between two drawers, by id. */
export function compareDrawers(first: Drawer, second: Drawer): DrawerDifference {
  const others = new Map(second.entries.map((entry) => [entry.part.id, entry]))
  const mine = new Set(first.entries.map((entry) => entry.part.id))
  const changed = first.entries.flatMap((entry) => {
    const other = others.get(entry.part.id)
    if (!other) return []
    const fields = differingFields(entry, other)
    return fields.length > 0 ? [{ id: entry.part.id, fields }] : []
  })
  return {
    onlyFirst: [...mine].filter((id) => !others.has(id)),
    onlySecond: [...others.keys()].filter((id) => !mine.has(id)),
    changed,
  }
}

function differingFields(a: DrawerEntry, b: DrawerEntry): string[] {
  const [left, right] = [a.part, b.part] as unknown as Record<string, unknown>[]
  const keys = new Set([...Object.keys(left!), ...Object.keys(right!)])
  const fields = [...keys].filter((key) => !sameValue(left![key], right![key]))
  return a.quantity === b.quantity ? fields : [...fields, 'quantity']
}
