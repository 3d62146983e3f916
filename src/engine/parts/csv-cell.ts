import { parseQuantity, parseRange, shifted } from '../quantity/index.ts'
import { type CellForm, pointUnit, tableUnit } from './csv-columns.ts'

type CellResult =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly message: string }
interface Spread {
  readonly minimum: number
  readonly typical: number
  readonly maximum: number
}

const good = (value: unknown): CellResult => ({ ok: true, value })
const bad = (message: string): CellResult => ({ ok: false, message })

/** A list's item with its bars, backslashes and outer spaces marked by a backslash. */
const escaped = (item: string) => item.replace(/[\\|]|^\s|\s$/g, '\\$&')

/** Items between bars, without the spaces round them that no backslash keeps. */
function items(text: string): string[] {
  const found: { kept: boolean; mark: string }[][] = [[]]
  for (let i = 0; i < text.length; i++) {
    const kept = text[i] === '\\' && i + 1 < text.length
    if (kept) i++
    if (!kept && text[i] === '|') found.push([])
    else found[found.length - 1]!.push({ kept, mark: text[i]! })
  }
  const solid = ({ kept, mark }: { kept: boolean; mark: string }) => kept || mark.trim() !== ''
  return found.map((marks) =>
    marks
      .slice(marks.findIndex(solid), marks.findLastIndex(solid) + 1)
      .map(({ mark }) => mark)
      .join(''),
  )
}

/** A field's value as the text of its cell. */
export function cellText(value: unknown, cell: CellForm): string {
  switch (cell.form) {
    case 'number':
      return shifted(value as number, tableUnit(cell.unit)[1])
    case 'spread': {
      const { minimum, typical, maximum } = value as Spread
      const power = tableUnit(cell.unit)[1]
      return [minimum, typical, maximum].map((v) => shifted(v, power)).join(' / ')
    }
    case 'flag':
      return value ? 'yes' : 'no'
    case 'list':
      return (value as string[]).map(escaped).join(' | ')
    case 'points':
      return (value as Record<string, number>[])
        .map((point) => cell.fields.map((field) => shifted(point[field.key]!, 0)).join(' '))
        .join(' | ')
    default:
      return String(value)
  }
}

/** A cell's text as the field's value, typed as people type it; `unit` is what its header gives to bare numbers. */
export function readCell(text: string, cell: CellForm, unit: string | undefined): CellResult {
  switch (cell.form) {
    case 'number': {
      const read = parseQuantity(text, cell.unit, unit ?? tableUnit(cell.unit)[0])
      return read.ok ? good(read.value) : bad(read.message)
    }
    case 'spread':
      return readSpread(text, cell, unit ?? tableUnit(cell.unit)[0])
    case 'flag': {
      const word = text.trim().toLowerCase()
      if (['yes', 'true', '1', 'y'].includes(word)) return good(true)
      if (['no', 'false', '0', 'n'].includes(word)) return good(false)
      return bad('must be yes or no')
    }
    case 'choice': {
      const chosen = cell.values.find((v) => String(v).toLowerCase() === text.trim().toLowerCase())
      return chosen === undefined ? bad(`must be one of ${cell.values.join(', ')}`) : good(chosen)
    }
    case 'list':
      return good(items(text))
    case 'points':
      return readPoints(text, cell)
    default:
      return good(text)
  }
}

/** `2.7 / 3 / 3.3`, `3 ±10 %`, `2.7..3.3` (typical in the middle) or one value for all three. */
function readSpread(text: string, cell: CellForm & { form: 'spread' }, unit: string): CellResult {
  const parts = text.split('/')
  if (parts.length === 3) {
    const [minimum, typical, maximum] = parts.map((p) => parseQuantity(p, cell.unit, unit))
    if (!minimum!.ok) return bad(minimum!.message)
    if (!typical!.ok) return bad(typical!.message)
    if (!maximum!.ok) return bad(maximum!.message)
    return good({ minimum: minimum!.value, typical: typical!.value, maximum: maximum!.value })
  }
  const range = parseRange(text, cell.unit, unit)
  if (!range.ok) return bad(`${range.message}, or as minimum / typical / maximum`)
  const typical = range.low === range.high ? range.low : (range.low + range.high) / 2
  return good({ minimum: range.low, typical, maximum: range.high })
}

function readPoints(text: string, cell: CellForm & { form: 'points' }): CellResult {
  const points: Record<string, number>[] = []
  for (const written of text.split('|')) {
    const words = written.trim().split(/\s+/)
    if (words.length !== cell.fields.length)
      return bad(`point ${points.length + 1} must have ${cell.fields.length} numbers, not ${words.length}`)
    const point: Record<string, number> = {}
    for (const [i, { key, unit }] of cell.fields.entries()) {
      const read = parseQuantity(words[i]!, unit, pointUnit(unit))
      if (!read.ok) return bad(`point ${points.length + 1}: ${read.message}`)
      point[key] = read.value
    }
    points.push(point)
  }
  return good(points)
}
