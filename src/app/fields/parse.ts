import { parseMains, parseQuantity, parseRange } from '../../engine/quantity/index.ts'
import { bareOf, unitOf } from './show.ts'

/** What was typed as a value in SI units, or null. */
export const readValue = (text: string, unit: string): number | null => {
  const parsed = parseQuantity(text, unitOf(unit), bareOf(unit))
  return parsed.ok ? parsed.value : null
}

export interface TypedRange {
  readonly low: number
  readonly high: number
  /** The value between them, where it was written. */
  readonly middle?: number
}

export const readRange = (text: string, unit: string): TypedRange | null => {
  const parsed = parseRange(text, unitOf(unit), bareOf(unit))
  return parsed.ok ? parsed : null
}

/** What was typed as mains; a voltage alone means 10 % to either side of it. */
export const readMains = (text: string): TypedRange | null => {
  const parsed = parseMains(text)
  return parsed.ok ? parsed : null
}
