import { type Unit, type UnitDefinition, units } from './unit.ts'

const exponents: Readonly<Record<string, number>> = { p: -12, n: -9, u: -6, m: -3, ' ': 0, k: 3, M: 6, G: 9 }
const thin = '\u202f'

/** Steps of units that are not shown with SI prefixes: factor from SI, symbol, least magnitude it is used for. */
const steps: Partial<Record<Unit, readonly (readonly [factor: number, symbol: string, from: number])[]>> = {
  m: [
    [1, 'm', 1],
    [1e3, 'mm', 1e-5],
    [1e6, 'µm', 0],
  ],
  m2: [
    [1, 'm²', 1],
    [1e6, 'mm²', 0],
  ],
  m3: [
    [1e6, 'cm³', 1e-5],
    [1e9, 'mm³', 0],
  ],
  fraction: [[100, '%', 0]],
  '1/K': [[1e6, 'ppm/K', 0]],
}

/**
 * Number rounded to significant digits without a power of ten; the digits before the point are never rounded away.
 * Trailing zeros after the point are dropped.
 */
function plain(value: number, digits: number): string {
  const whole = Math.floor(Math.log10(Math.abs(value))) + 1
  const text = value.toFixed(Math.min(20, Math.max(0, digits - whole)))
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}

/** The number as it will be shown, so that 999.96 counts as 1000 when its prefix is chosen. */
const roundedTo = (value: number, digits: number) => Number(value.toPrecision(digits))

function stepFor(value: number, unit: Unit): readonly [factor: number, symbol: string] {
  const definition: UnitDefinition = units[unit]
  const size = Math.abs(value)
  const own = steps[unit]
  if (own) {
    const [factor, symbol] = own.find(([, , from]) => size >= from) ?? own[own.length - 1]!
    return [factor, symbol]
  }
  const ladder = [...definition.shown].map((letter) => [letter, exponents[letter]!] as const)
  const fits = ladder.filter(([, exponent]) => size >= 10 ** exponent * (1 - 1e-12))
  const [letter, exponent] = fits[fits.length - 1] ?? ladder[0]!
  const prefix = letter === ' ' ? '' : letter === 'u' ? 'µ' : letter
  return [10 ** -exponent, prefix + definition.symbol]
}

/**
 * A value in SI units as people read it: significant digits (3 if not given), SI prefix in steps of a thousand,
 * millimetres for lengths from 10 µm to 1 m, percent for shares, no prefix for °C, K, turns. Large capacitors stay
 * in µF. Zeros at the end are dropped. A value that is not finite gives a dash.
 */
export function formatQuantity(value: number, unit: Unit, digits = 3): string {
  if (!Number.isFinite(value)) return '–'
  const definition: UnitDefinition = units[unit]
  if (value === 0) return definition.symbol ? `0${thin}${definition.symbol}` : '0'
  const shown = roundedTo(value, digits)
  const [factor, symbol] = stepFor(shown, unit)
  const text = plain(value * factor, digits)
  return symbol ? `${text}${thin}${symbol}` : text
}

/** The unit, with its prefix, that a value like this one is shown in: `µH` for 570e-6 H. */
export const shownUnit = (value: number, unit: Unit): string =>
  formatQuantity(value === 0 ? 1 : value, unit).split(thin)[1] ?? ''

/** Ends of a range further apart than this keep a unit each: in one, the lesser would be all zeros. */
const mostApart = 1000

/** Two ends of a range in the unit of the greater: `85–265 V`, `0.964–1.15 mH`. */
export function formatRange(low: number, high: number, unit: Unit, digits = 3): string {
  const [first, last] = [formatQuantity(low, unit, digits), formatQuantity(high, unit, digits)]
  if (first === last) return first
  const [least, most] = [Math.abs(low), Math.abs(high)].sort((a, b) => a - b) as [number, number]
  if (!Number.isFinite(most) || (least > 0 && most / least >= mostApart)) return `${first} – ${last}`
  const [factor, symbol] = stepFor(roundedTo(most, digits), unit)
  const [from, to] = [low, high].map((value) => (value === 0 ? '0' : plain(value * factor, digits)))
  return symbol ? `${from}–${to}${thin}${symbol}` : `${from}–${to}`
}
