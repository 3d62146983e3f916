import type { Part } from '../../engine/parts/part.ts'
import type { Place, Places } from '../../engine/supply/build.ts'
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
 * Puts a part (or nothing) into a place. The supply keeps copies of the parts it uses and of no others; a part of the
 * same id that is in use elsewhere in this supply is replaced there too, so that one id stays one part.
 */
export const partChanges = (supply: Supply, place: Place, part: Part | null): Change[] => {
  const places = { ...supply.build.places, [place]: part?.id ?? null } as Places
  const used = new Set(Object.values(places))
  const others = supply.parts.filter((p) => used.has(p.id) && p.id !== part?.id)
  return [
    { path: ['build', 'places', place], from: supply.build.places[place], to: part?.id ?? null },
    { path: ['parts'], from: supply.parts, to: part === null ? others : [...others, part] },
  ]
}
