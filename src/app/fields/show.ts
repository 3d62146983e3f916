import { formatQuantity, formatRange, type Unit } from '../../engine/quantity/index.ts'

const minus = '−'

/** Units as tables of readings print them, and the units that the engine formats and reads. */
const printed: Readonly<Record<string, Unit>> = {
  Ω: 'ohm',
  '°C': 'C',
  'A²s': 'A2s',
  '': '1',
  '%': 'fraction',
  metre: 'm',
}

/** The engine's unit behind a printed one. */
export const unitOf = (unit: string): Unit => printed[unit] ?? (unit as Unit)

/** A number alone in a field means this. */
export const bareOf = (unit: string): string | undefined => (unit === 'metre' ? 'm' : undefined)

/**
 * A value in SI units as people read it: three significant digits, SI prefix, true minus. Lengths in millimetres,
 * current densities in A/mm², temperatures in whole degrees.
 */
export const show = (value: number, unit: string, digits = 3): string => {
  const text =
    unit === 'A/m²'
      ? `${formatQuantity(value / 1e6, '1', digits)}\u00a0A/mm²`
      : unit === '°C'
        ? formatQuantity(Math.round(value), 'C', 4)
        : unit === '°' || unit === 'dB'
          ? `${formatQuantity(value, '1', digits)}${unit === '°' ? '°' : '\u00a0dB'}`
          : formatQuantity(value, unitOf(unit), digits)
  return text.replace('-', minus).replaceAll('\u202f', '\u00a0')
}

/** A fraction as percent: `12 %`, `−3.4 %`; whole percents from ten on, else one decimal. */
export const showPercent = (fraction: number): string => {
  const digits = Math.abs(fraction) >= 0.0995 ? 100 : 1000
  return show(Math.round(fraction * digits) / digits, '%', 4)
}

/** `85–265 V`; one value where both are the same. */
export const showRange = (low: number, high: number, unit: string): string =>
  formatRange(low, high, unitOf(unit), 4).replace(/^-/, minus).replaceAll('\u202f', '\u00a0')

/** An input range as people write it: `230 V ±10 %` where it lies evenly about its nominal, else `85–265 V`. */
export const showAbout = (low: number, nominal: number, high: number): string => {
  const share = (high - nominal) / nominal
  const isEven = Math.abs(low + high - 2 * nominal) < 1e-6 * nominal
  const isWhole = Math.abs(share * 100 - Math.round(share * 100)) < 1e-6
  return isEven && isWhole ? `${show(nominal, 'V', 4)} ±${showPercent(share)}` : showRange(low, high, 'V')
}
