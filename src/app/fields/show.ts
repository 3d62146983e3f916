const prefixes: readonly [number, string][] = [
  [1e9, 'G'],
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
  [1e-12, 'p'],
]

const minus = '−'
const space = ' '

/** A number with that many significant digits, never in powers of ten, with trailing zeros of a fraction cut. */
const digitsOf = (value: number, digits: number): string => {
  if (value === 0) return '0'
  const places = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value))))
  const text = value.toFixed(Math.min(places, 12))
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text
  return short.replace('-', minus)
}

const withPrefix = (value: number, unit: string, digits: number): string => {
  if (value === 0) return `0${space}${unit}`
  const rounded = Number(value.toPrecision(digits))
  const [scale, prefix] = prefixes.find(([s]) => Math.abs(rounded) >= s) ?? prefixes.at(-1)!
  return `${digitsOf(value / scale, digits)}${space}${prefix}${unit}`
}

/** Units which people read in one customary size, whatever the value. */
const customary: Record<string, { readonly per: number; readonly unit: string }> = {
  m: { per: 1e3, unit: 'mm' },
  'A/m²': { per: 1e-6, unit: 'A/mm²' },
}

/** Units which take no prefix. */
const plain = new Set(['°C', 'h', 'A²s', 'K/W', 'J', '%'])

/**
 * A value in SI units as people read it: three significant digits, SI prefix, true minus, no-break space. Lengths
 * are in millimetres below ten metres, current densities in A/mm², temperatures in whole degrees.
 */
export const show = (value: number, unit: string, digits = 3): string => {
  if (!Number.isFinite(value)) return value > 0 ? '∞' : value < 0 ? `${minus}∞` : '–'
  if (unit === '') return digitsOf(value, digits)
  if (unit === '°C') return `${Math.round(value)}${space}°C`.replace('-', minus)
  if (unit === 'h')
    return `${Math.round(Number(value.toPrecision(digits)))
      .toLocaleString('en-US')
      .replaceAll(',', ' ')}${space}h`
  if (plain.has(unit)) return `${digitsOf(value, digits)}${space}${unit}`
  if (unit === 'm' && Math.abs(value) >= 10) return withPrefix(value, unit, digits)
  const custom = customary[unit]
  if (custom) return `${digitsOf(value * custom.per, digits)}${space}${custom.unit}`
  return withPrefix(value, unit, digits)
}

/** A fraction as percent, with sign when asked: `12 %`, `−3 %`. */
export const showPercent = (fraction: number, digits = 2): string => {
  if (!Number.isFinite(fraction)) return '–'
  const percent = fraction * 100
  const text = Math.abs(percent) >= 10 ? String(Math.round(percent)) : digitsOf(percent, digits)
  return `${text.replace('-', minus)}${space}%`
}

/** `85–265 V`; one value where both are the same. */
export const showRange = (low: number, high: number, unit: string): string =>
  low === high ? show(low, unit, 4) : `${show(low, '', 4)}–${show(high, unit, 4)}`
