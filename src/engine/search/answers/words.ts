import type { Assessment, Limit } from '../../limits/index.ts'
import { limitUse } from '../../limits/rules/switcher.ts'
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

/** Ratios that are read in percent. */
const ratios = /^(transformer\.(fit|hand-fit|leakage)|choke\.fill|switcher\.duty)$/

const figure = ({ id, unit }: Limit, value: number): string =>
  ratios.test(id) ? `${Number((100 * value).toPrecision(3))} %` : valueText(value, unit)

/** `flux at the greatest current limit 0.41 T, at most 0.33 T`. */
export const limitText = (limit: Limit): string => {
  const { id, title, reading, rating, sense, condition } = limit
  return id === 'supply.runs'
    ? `it does not run at ${conditionById.get(condition!)?.label ?? 'some condition'}`
    : `${title.charAt(0).toLowerCase()}${title.slice(1)} ${figure(limit, reading)}, ${sense === 'at-most' ? 'at most' : 'at least'} ${figure(limit, rating)}`
}

/** By how much a limit is missed: `24 % over`, `8 K over`; empty for a class or count, which is met or not. */
export function excessText({ reading, rating, sense, unit, discrete }: Limit): string {
  const side = sense === 'at-most' ? 'over' : 'short'
  if (unit === '°C') return `${Math.ceil(Math.abs(reading - rating))} K ${side}`
  return discrete || rating === 0 ? '' : `${percent(Math.abs(reading / rating - 1))} ${side}`
}

/** `36 % more window height`, `3.2 times the core area`: rounded up, so that it is enough. */
const moreOf = (what: string, over: number): string =>
  over < 1
    ? `${Math.max(1, Math.ceil(100 * over - 1e-6))} % more ${what}`
    : `${Math.ceil(10 * (1 + over) - 1e-6) / 10} times the ${what}`

/** A larger core takes a wider gap, whose field crowds the corners a little more. */
const fringe = 1.02

/**
 * What a limit would hold with, where its figures tell; null where only advice can be given. `chip_A`: the least
 * current limit of the chip, to which its delay adds.
 */
function enoughFor({ id, reading, rating, unit }: Limit, chip_A: number): string | null {
  const over = rating === 0 ? 0 : reading / rating - 1
  const under = reading === 0 ? 0 : rating / reading - 1
  const cooler = `${Math.ceil(reading - rating)} K cooler`
  switch (id) {
    case 'core.saturation':
      return moreOf('core area', fringe * (1 + over) - 1)
    case 'transformer.fit':
    case 'transformer.hand-fit':
      return moreOf('window height', over)
    case 'switcher.peak-current':
      return `a chip with ${moreOf('current limit', (reading - rating) / (limitUse * chip_A))}`
    case 'supply.power':
      return `a chip with ${moreOf('current limit', under)}`
    case 'transformer.temperature':
      return `a larger core, ${cooler},`
    case 'switcher.case':
    case 'switcher.junction':
    case 'rectifier.case':
    case 'rectifier.junction':
      return `a larger heatsink or a part of less loss, ${cooler},`
    case 'switcher.drain-voltage':
    case 'switcher.drain-margin':
      return `a chip of ${valueText(Math.ceil((1.02 * reading * (id === 'switcher.drain-margin' ? 1 / 0.9 : 1)) / 50) * 50, unit)}`
    case 'rectifier.reverse-margin':
    case 'rectifier.reverse':
      return `a rectifier of ${valueText(Math.ceil((1.05 * reading) / 10) * 10, unit)}`
    default:
      return null
  }
}

/** Limits that more current limit mends. */
const ofChip = /^(switcher\.peak-current|supply\.power)$/

/** What would mend a limit of a supply, in figures where it tells them; and how many more are broken beside it. */
export function mendedBy(limit: Limit, { limits, evaluation }: Assessment): string {
  // More current limit is more flux at it: a core that has no room for it stops the larger chip in turn.
  const flux = limits.find(({ id }) => id === 'core.saturation')
  const saturates =
    /^(switcher\.peak-current|supply\.power)$/.test(limit.id) &&
    flux !== undefined &&
    flux.margin < -limit.margin
  const others = limits.filter(({ holds, id }) => !holds && id !== limit.id).length
  const beside =
    others === 0 ? '' : `, with ${others} more ${others === 1 ? 'limit' : 'limits'} broken beside it`
  if (limit.id === 'supply.runs')
    return `a chip of another size, or more bulk capacitance, may mend that${beside}`
  const enough = enoughFor(limit, evaluation.design.parts.switcher.currentLimit_A.minimum)
  if (enough !== null && others === 0 && saturates)
    return `${enough} would mend that, and saturate the core at its greatest limit`
  // Of what does not run, or needs a chip of twice the size, the readings are only a beginning: another part moves them.
  const beginning =
    limits.some(({ id }) => id === 'supply.runs') || (ofChip.test(limit.id) && limit.margin < -1)
  if (enough !== null && beginning) return `at the least ${enough} would be wanted${beside}`
  if (enough !== null) return `${enough} would ${others === 0 ? 'do' : 'mend that'}${beside}`
  const advice = limit.raise.replace(/\.$/, '')
  return `${advice.charAt(0).toLowerCase()}${advice.slice(1)}${beside}`
}

export const listText = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
