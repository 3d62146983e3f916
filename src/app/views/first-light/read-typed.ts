import type { Check } from '../../../engine/bench/index.ts'
import type { Unit } from '../../../engine/quantity/index.ts'
import { logEntry } from '../../../engine/supply/bench-log.ts'
import { readValue } from '../../fields/parse.ts'
import { firstLightStrings } from '../../strings/first-light.ts'

const words = firstLightStrings.check

/** What a meter's over-range stands for: beyond its highest range, or its open voltage on the diode test. */
const overRange = ({ stage, expected }: Check): number | null =>
  expected?.unit === 'ohm' ? 4e7 : expected?.unit === 'V' && stage === 'cold' ? 3 : null

/** Whether a value is what is kept for the over-range of the meter. */
export const isOverRange = (check: Check, value: number): boolean => value === overRange(check)
const saysOver = /^(o\.?\s?l\.?|over|overload|open|∞|inf)$/i

/** Units whose bare numbers are no values that anybody means. */
const examples: Partial<Readonly<Record<Unit, string>>> = { H: '910 uH', F: '47 uF', Hz: '100 kHz' }

export type Typed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string }

/** A reading as people write it down, in SI units: `325 V`, `0,62`, `1k2`, `OL`. */
export function readTyped(text: string, check: Check): Typed {
  const said = text.trim()
  const unit = check.expected?.unit ?? '1'
  if (saysOver.test(said)) {
    const value = overRange(check)
    return value === null ? { ok: false, message: words.noOverload } : { ok: true, value }
  }
  const example = examples[unit]
  if (example !== undefined && /^[-+\d.,\s]+$/.test(said) && Number(said.replace(',', '.')) !== 0)
    return { ok: false, message: words.needsUnit(said, example) }
  const percent = unit === 'fraction' && /^[\d.,\s]+$/.test(said) ? `${said}%` : said
  const value = readValue(percent, unit === 'fraction' ? '%' : unit)
  if (value === null) return { ok: false, message: words.noValue(said) }
  if (!logEntry.shape.value.safeParse(value).success || Math.abs(value) > 1e12)
    return { ok: false, message: words.outOfRange(said) }
  return { ok: true, value }
}
