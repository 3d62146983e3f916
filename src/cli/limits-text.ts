import { type Assessment, type Limit, roomInWords } from '../engine/limits/index.ts'
import { formatQuantity, type Unit } from '../engine/quantity/index.ts'
import { conditionById } from '../engine/supply/condition.ts'
import { reference } from '../engine/supply/refs.ts'
import { columns } from './columns.ts'

export const percent = (fraction: number) => `${(fraction * 100).toFixed(0)} %`

/** Units of limits that are written otherwise than quantities name them. */
const unitOf: Readonly<Record<string, Unit>> = { '': '1', '%': 'fraction', '°C': 'C', 'A²s': 'A2s', Ω: 'ohm' }

/** A reading or rating of a limit with its unit. */
export const value = (limit: Limit, number: number): string =>
  limit.unit === 'A/m²'
    ? `${formatQuantity(number / 1e6, '1')} A/mm²`
    : limit.unit === '°' || limit.unit === 'dB'
      ? `${formatQuantity(number, '1')}${limit.unit === '°' ? '°' : ' dB'}`
      : formatQuantity(number, unitOf[limit.unit] ?? (limit.unit as Unit))

/** `612 V, at most 595 V`; the rule that the supply runs has no figures. */
export const against = (limit: Limit): string =>
  limit.id === 'supply.runs'
    ? 'does not run'
    : `${value(limit, limit.reading)}, ${limit.sense === 'at-most' ? 'at most' : 'at least'} ${value(limit, limit.rating)}`

/** Limits in the order given as a table; a broken one is marked by a word, not by colour. */
export function limitsTable(limits: readonly Limit[]): string {
  const head = ['left', '', 'part', 'limit', 'reading', 'worst at']
  const rows = limits.map((limit) => [
    roomInWords(limit, percent),
    limit.holds ? '' : 'BROKEN',
    reference[limit.spot],
    limit.title,
    against(limit),
    limit.condition ?? '',
  ])
  return columns([head, ...rows])
}

/** What gives first, in a paragraph: the reading, where, why it matters, and what would give more room. */
export function weakest(limit: Limit): string {
  const state = limit.discrete
    ? limit.holds
      ? 'met'
      : 'BROKEN'
    : limit.holds
      ? `${percent(limit.margin)} left`
      : `BROKEN by ${percent(-limit.margin)}`
  const condition = limit.condition === null ? undefined : conditionById.get(limit.condition)
  const place = condition === undefined ? '' : ` (${condition.label})`
  return `Gives first: ${limit.title}, ${reference[limit.spot]}: ${against(limit)}${place}; ${state}.
  Why: ${limit.why}
  More room: ${limit.raise}`
}

/** `All 49 limits hold (closed form).` */
export function verdict({ limits, holds, evaluation }: Assessment): string {
  const broken = limits.filter((limit) => !limit.holds).length
  const words = holds ? `All ${limits.length} limits hold` : `${broken} of ${limits.length} limits are broken`
  return `${words} (${evaluation.depth}).`
}
