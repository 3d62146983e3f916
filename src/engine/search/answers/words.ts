import type { Limit } from '../../limits/index.ts'
import { formatQuantity, type Unit } from '../../quantity/index.ts'
import { conditionById } from '../../supply/condition.ts'

/** Units of limits that quantities name otherwise. */
const unitOf: Readonly<Record<string, Unit>> = { '': '1', '°C': 'C', 'A²s': 'A2s', Ω: 'ohm', '%': '1' }
/** Units that quantities do not know; they stand as they are. */
const plainUnits = new Set(['A/m²', 'A/s', 'dB', '°'])

/** A value as a person reads it, with the unit of its limit. */
function valueText(value: number, unit: string): string {
  if (unit === 'A/m²') return `${formatQuantity(value / 1e6, '1')} A/mm²`
  if (unit === 'A/s') return `${formatQuantity(value / 1e6, '1')} A/µs`
  if (plainUnits.has(unit)) return `${formatQuantity(value, '1')} ${unit}`
  if (unit === '°C') return formatQuantity(Math.round(value), 'C', 4)
  return formatQuantity(value, unitOf[unit] ?? (unit as Unit))
}

const percent = (fraction: number): string => `${Math.max(1, Math.round(100 * fraction))} %`

/** `flux at the greatest current limit 0.41 T, at most 0.33 T`. */
export const limitText = ({ id, title, reading, rating, sense, unit, condition }: Limit): string =>
  id === 'supply.runs'
    ? `it does not run at ${conditionById.get(condition!)?.label ?? 'some condition'}`
    : `${title.charAt(0).toLowerCase()}${title.slice(1)} ${valueText(reading, unit)}, ${sense === 'at-most' ? 'at most' : 'at least'} ${valueText(rating, unit)}`

/** By how much a limit is missed: `24 % over`, `8 K over`; empty for a class or count, which is met or not. */
export function excessText({ reading, rating, sense, unit, discrete }: Limit): string {
  const side = sense === 'at-most' ? 'over' : 'short'
  if (unit === '°C') return `${Math.ceil(Math.abs(reading - rating))} K ${side}`
  return discrete || rating === 0 ? '' : `${percent(Math.abs(reading / rating - 1))} ${side}`
}

/** What would do instead, in figures where the limit tells them; else what the limit says would give room. */
export function remedyText(limit: Limit): string {
  const { id, reading, rating, unit } = limit
  const over = rating === 0 ? 0 : reading / rating - 1
  const under = reading === 0 ? 0 : rating / reading - 1
  switch (id) {
    case 'supply.runs':
      return 'a chip of lower current limit, or more bulk capacitance, would do'
    case 'core.saturation':
      return `${percent(over)} more core area would do`
    case 'transformer.fit':
    case 'transformer.hand-fit':
      return `${percent(over)} more window height would do`
    case 'transformer.temperature':
      return `${Math.ceil(reading - rating)} K less would do: a larger core`
    case 'switcher.peak-current':
      return `a chip with ${percent(over)} more current limit would do`
    case 'supply.power':
      return `a chip with ${percent(under)} more power would do`
    case 'switcher.case':
    case 'switcher.junction':
    case 'rectifier.case':
    case 'rectifier.junction':
      return `${Math.ceil(reading - rating)} K less would do: a larger heatsink, or a part of less loss`
    case 'switcher.drain-voltage':
    case 'switcher.drain-margin':
      return `a chip of ${valueText(Math.ceil((1.02 * reading * (id === 'switcher.drain-margin' ? 1 / 0.9 : 1)) / 50) * 50, unit)} would do`
    case 'rectifier.reverse-margin':
    case 'rectifier.reverse':
      return `a rectifier of ${valueText(Math.ceil((1.05 * reading) / 10) * 10, unit)} would do`
    default:
      return `${limit.raise.charAt(0).toLowerCase()}${limit.raise.slice(1).replace(/\.$/, '')}`
  }
}

export const listText = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
