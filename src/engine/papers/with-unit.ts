import { formatQuantity, type Unit } from '../quantity/index.ts'

/** A reading with its unit as it is printed in limits. */
export function withUnit(value: number, unit: string): string {
  if (unit === 'A/m²') return `${Number((value / 1e6).toPrecision(3))} A/mm²`
  if (unit === '°') return `${Number(value.toPrecision(3))}°`
  const known = unitNames[unit] ?? unit
  return known in shownUnits
    ? formatQuantity(value, known as Unit)
    : `${Number(value.toPrecision(3))} ${unit}`
}

/** Units of limits and readings that have a form of their own in `quantity`. */
const shownUnits = {
  V: 0,
  A: 0,
  ohm: 0,
  H: 0,
  F: 0,
  W: 0,
  s: 0,
  h: 0,
  m: 0,
  T: 0,
  C: 0,
  A2s: 0,
  Hz: 0,
  J: 0,
  'A/s': 0,
  fraction: 0,
  '1': 0,
}
const unitNames: Record<string, string> = { Ω: 'ohm', '°C': 'C', 'A²s': 'A2s', '': '1', '%': 'fraction' }
