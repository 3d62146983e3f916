import type { Part } from '../parts/part.ts'
import { starterDrawer } from '../parts/starter/index.ts'
import { readableValue, shortened } from './problem.ts'

type Keys = readonly PropertyKey[]

/** Units by the ending of a field's name. */
const units: readonly (readonly [RegExp, string])[] = [
  [/_K_per_W$/, 'K/W'],
  [/_m2$/, 'm²'],
  [/_m3$/, 'm³'],
  [/_A2s$/, 'A²s'],
  [/_A_per_s$/, 'A/s'],
  [/_ohm$/, 'ohm'],
  [/_(V|A|F|H|W|Hz|s|m|T|K|h|J)$/, '$1'],
  [/_C$/, '°C'],
]

/** The part of a drawer or a supply that a path leads into, and the way on from there. */
function partAt(input: unknown, keys: Keys): { part: Record<string, unknown>; rest: Keys } | null {
  const steps = keys[0] === 'entries' && keys[2] === 'part' ? 3 : keys[0] === 'parts' ? 2 : 0
  if (steps === 0 || keys.length < steps) return null
  let value = input
  for (const key of keys.slice(0, steps)) {
    if (typeof value !== 'object' || value === null) return null
    value = (value as Record<PropertyKey, unknown>)[key]
  }
  return typeof value === 'object' && value !== null
    ? { part: value as Record<string, unknown>, rest: keys.slice(steps) }
    : null
}

const valueIn = (part: object, keys: Keys): unknown =>
  keys.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined,
    part,
  )

/** What a starter part of the same kind has there. */
function example(kind: unknown, keys: Keys): string | null {
  const alike = starterDrawer.entries.find(
    ({ part }: { part: Part }) => part.kind === kind && valueIn(part, keys) !== undefined,
  )
  const value = alike && valueIn(alike.part, keys)
  return typeof value === 'number' || typeof value === 'string' ? readableValue(value) : null
}

/**
 * Of a problem inside a part: which part it is, by its name, and what is wanted there, with its unit and what a starter
 * part of the same kind has: ` in "700 V, 9 ohm switcher"; wanted is a value in V, such as 700`. Empty elsewhere.
 */
export function ofPart(input: unknown, keys: Keys): string {
  const found = partAt(input, keys)
  if (found === null) return ''
  const { part, rest } = found
  const named = typeof part.name === 'string' && part.name !== '' ? part.name : part.id
  const where = typeof named === 'string' && named !== '' ? ` in "${shortened(named, 80)}"` : ''
  const field = String(rest.findLast((key) => typeof key === 'string' && key.includes('_')) ?? '')
  const unit = units.find(([ending]) => ending.test(field))
  const inUnit = unit === undefined ? '' : ` in ${field.match(unit[0])![0].replace(unit[0], unit[1])}`
  const such = rest.length === 0 ? null : example(part.kind, rest)
  return such === null ? where : `${where}; wanted is a value${inUnit}, such as ${such}`
}
