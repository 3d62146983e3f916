/**
 * Polynomials in the scaled Laplace variable x = s/`scale_rad_per_s`, coefficients in rising order. The scale keeps
 * the coefficients of audio-range poles and zeros near 1.
 */
export type Polynomial = readonly number[]

/** 2 pi 1 kHz. */
export const scale_rad_per_s = 2 * Math.PI * 1000

/** Coefficient of s for use in a polynomial of x: 1 + s T is `[1, inX(T)]`. */
export const inX = (coefficient: number): number => coefficient * scale_rad_per_s

export function multiply(...factors: readonly Polynomial[]): Polynomial {
  let product: number[] = [1]
  for (const factor of factors) {
    const next = new Array<number>(product.length + factor.length - 1).fill(0)
    for (let i = 0; i < product.length; i++)
      for (let j = 0; j < factor.length; j++) next[i + j]! += product[i]! * factor[j]!
    product = next
  }
  return product
}

export function add(...terms: readonly Polynomial[]): Polynomial {
  const sum = new Array<number>(Math.max(...terms.map((t) => t.length))).fill(0)
  for (const term of terms) for (let k = 0; k < term.length; k++) sum[k]! += term[k]!
  return sum
}

export const times = (p: Polynomial, factor: number): Polynomial => p.map((c) => c * factor)

/** A quotient of two polynomials in x. */
export interface Rational {
  readonly num: Polynomial
  readonly den: Polynomial
}

/**
 * Value of a quotient at s = j 2 pi f, written to `out` as real and imaginary part. Allocates nothing. Even and odd
 * coefficients give real and imaginary part of each polynomial by Horner's rule in -y^2.
 */
export function evaluate(r: Rational, frequency_Hz: number, out: Float64Array): void {
  const y = (2 * Math.PI * frequency_Hz) / scale_rad_per_s
  const square = -y * y
  const nr = horner(r.num, 0, square)
  const ni = horner(r.num, 1, square) * y
  const dr = horner(r.den, 0, square)
  const di = horner(r.den, 1, square) * y
  const size = dr * dr + di * di
  out[0] = (nr * dr + ni * di) / size
  out[1] = (ni * dr - nr * di) / size
}

function horner(p: Polynomial, parity: 0 | 1, square: number): number {
  let value = 0
  for (let k = p.length - 1 - ((p.length - 1 - parity) & 1); k >= parity; k -= 2)
    value = value * square + p[k]!
  return value
}

export interface Response {
  readonly magnitude: number
  readonly gain_dB: number
  readonly phase_deg: number
}

/** Gain and phase (-180 to 180 degrees) of a quotient at one frequency. */
export function responseAt(r: Rational, frequency_Hz: number): Response {
  const out = new Float64Array(2)
  evaluate(r, frequency_Hz, out)
  const magnitude = Math.hypot(out[0]!, out[1]!)
  return {
    magnitude,
    gain_dB: 20 * Math.log10(magnitude),
    phase_deg: (Math.atan2(out[1]!, out[0]!) * 180) / Math.PI,
  }
}
