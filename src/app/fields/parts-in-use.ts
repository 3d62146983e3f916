import type { Part } from '../../engine/parts/part.ts'
import type { Place } from '../../engine/supply/build.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import type { Change } from '../state/edits.ts'

/** Places that may stay empty. */
export const optionalPlaces = new Set<Place>([
  'spacerFilm',
  'clampAvalanche',
  'bridge',
  'ntc',
  'fuse',
  'varistor',
  'xCapacitor',
  'commonModeChoke',
  'yCapacitor',
  'choke',
  'chokeWire',
  'secondCapacitor',
  'trimmer',
  'indicator',
  'switcherHeatsink',
  'switcherPad',
  'rectifierHeatsink',
  'rectifierPad',
])

export const partAt = (supply: Supply, place: Place): Part | null => {
  const id = supply.build.places[place]
  return id === null ? null : (supply.parts.find((p) => p.id === id) ?? null)
}

/**
 * Puts parts (or nothing) into places. The supply keeps copies of the parts it uses and of no others; a part of the
 * same id that is in use elsewhere in this supply is replaced there too, so that one id stays one part.
 */
export const partsChanges = (supply: Supply, put: { readonly [P in Place]?: Part | null }): Change[] => {
  const entries = Object.entries(put) as [Place, Part | null][]
  const coming = entries.map(([, part]) => part).filter((part) => part !== null)
  const ids = Object.fromEntries(entries.map(([place, part]) => [place, part?.id ?? null]))
  const used = new Set(Object.values({ ...supply.build.places, ...ids }))
  const staying = supply.parts.filter((p) => used.has(p.id) && coming.every((part) => part.id !== p.id))
  return [
    ...entries.map(([place]) => ({
      path: ['build', 'places', place],
      from: supply.build.places[place],
      to: ids[place] ?? null,
    })),
    { path: ['parts'], from: supply.parts, to: [...staying, ...coming] },
  ]
}
