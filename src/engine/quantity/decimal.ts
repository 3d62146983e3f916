/**
 * Decimal text to a number times a power of ten, rounded once: ('4.7', -3) is exactly the number 0.0047.
 */
export const scaled = (decimal: string, power: number): number => {
  const [digits, exponent = '0'] = decimal.toLowerCase().split('e')
  return Number(`${digits}e${Number(exponent) + power}`)
}

/**
 * The shortest decimal text of a number, moved by a power of ten without rounding: (0.00725, 3) gives `7.25`.
 * `scaled` with the opposite power gives back the very same number.
 */
export function shifted(value: number, power: number): string {
  const [digits, exponent] = value.toExponential().split('e')
  const moved = Number(exponent) + power
  if (moved < -7 || moved > 15) return `${digits}e${moved}`
  const sign = digits!.startsWith('-') ? '-' : ''
  const plain = digits!.replace(/[-.]/g, '')
  const whole = moved < 0 ? '0' : plain.slice(0, moved + 1).padEnd(moved + 1, '0')
  const part = moved < 0 ? '0'.repeat(-moved - 1) + plain : plain.slice(moved + 1)
  return sign + whole + (part && value !== 0 ? `.${part}` : '')
}

type Read =
  | { readonly ok: true; readonly decimal: string; readonly rest: string }
  | { readonly ok: false; readonly why: string }

const grouped = (point: string, group: string) => new RegExp(`^\\d{1,3}(${group}\\d{3})+(${point}\\d+)?$`)
const commaGroups = grouped('\\.', ',')
const dotGroups = grouped(',', '\\.')

/**
 * Reads the number at the start of a text: decimal point or comma, groups of three digits, power of ten. A single
 * comma before exactly three digits can mean either and is refused, unless a zero stands before it.
 */
export function readDecimal(text: string): Read {
  const found =
    /^([+-]?)((?:\d{1,3}(?: \d{3})+(?!\d)(?:[.,]\d+)?)|\d[\d.,']*|[.,]\d+)(?:e([+-]?\d{1,3})(?!\d))?/i.exec(
      text,
    )
  if (!found) return { ok: false, why: 'it does not begin with a number' }
  const [all, sign, mantissa, exponent] = found
  const rest = text.slice(all.length)
  const digits = mantissa!.replace(/[ ']/g, '')
  const decimal = plainDecimal(digits)
  if (decimal === undefined)
    return {
      ok: false,
      why: /^[1-9]\d{0,2},\d{3}$/.test(digits)
        ? `${digits} can mean ${digits.replace(',', '')} or ${digits.replace(',', '.').replace(/\.?0+$/, '')}`
        : `${digits} is not a number`,
    }
  return {
    ok: true,
    decimal: `${sign === '-' ? '-' : ''}${decimal}${exponent ? `e${Number(exponent)}` : ''}`,
    rest,
  }
}

function plainDecimal(digits: string): string | undefined {
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) return undefined
  if (/^\d*([.,]\d*)?$/.test(digits)) return digits.replace(',', '.')
  if (commaGroups.test(digits)) return digits.replaceAll(',', '')
  if (dotGroups.test(digits)) return digits.replaceAll('.', '').replace(',', '.')
  return undefined
}
