import type { OutputRow } from './output-row.ts'
import { maxDegree } from './source.ts'
import type { Span } from './span.ts'

const stride = maxDegree + 2

/**
 * Size of the terms an output is summed from, given the largest sizes of states and inputs so far: its rounding
 * is some 1e-15 of this.
 */
export function grossSize(row: OutputRow, states: Float64Array, inputs: Float64Array): number {
  let size = 1e-3
  for (let i = 0; i < row.grossX.length; i++) size += row.grossX[i]! * states[i]!
  for (let i = 0; i < row.grossU.length; i++) size += row.grossU[i]! * inputs[i]!
  return size
}

/** Courses of several outputs over a span: polynomials plus amplitudes of the fast modes. */
export class Courses {
  count = 0
  readonly poly: Float64Array
  readonly ampRe: Float64Array
  readonly ampIm: Float64Array
  private readonly ampSize: Float64Array
  /** Size of the terms each course is summed from, which sets its rounding. */
  readonly size: Float64Array
  /** Modes per course in the amplitude arrays. */
  readonly modes: number

  constructor(capacity: number, states: number) {
    this.modes = Math.max(states, 1)
    this.poly = new Float64Array(Math.max(capacity, 1) * stride)
    this.ampRe = new Float64Array(Math.max(capacity, 1) * this.modes)
    this.ampIm = new Float64Array(Math.max(capacity, 1) * this.modes)
    this.ampSize = new Float64Array(Math.max(capacity, 1) * this.modes)
    this.size = new Float64Array(Math.max(capacity, 1))
  }

  /** Course number `r` of an output over the span. */
  set(r: number, span: Span, row: OutputRow, u: Float64Array, inputDegree: number): void {
    const { topology, degree } = span
    const { count } = topology!.modes
    const inputs = topology!.inputs
    const at = r * stride
    const { poly } = this
    for (let j = 0; j <= degree; j++) {
      let value = 0
      if (j <= inputDegree)
        for (let i = 0; i < inputs; i++) {
          value += row.d[i]! * u[i * stride + j]!
          const e = row.e[i]!
          if (e !== 0) value += e * (j + 1) * u[i * stride + j + 1]!
        }
      poly[at + j] = value
    }
    for (let k = 0; k < count; k++) {
      const re = row.cRe[k]!
      const im = row.cIm[k]!
      if (re === 0 && im === 0) continue
      const from = k * stride
      const own = span.degrees[k]!
      for (let j = 0; j <= own; j++)
        poly[at + j]! += re * span.polyRe[from + j]! - im * span.polyIm[from + j]!
    }
    for (let f = 0; f < span.fastSingles; f++) {
      const k = span.fast[f]!
      const re = row.cRe[k]!
      const im = row.cIm[k]!
      const a = span.zetaRe[k]!
      const b = span.zetaIm[k]!
      const aRe = re * a - im * b
      const aIm = re * b + im * a
      const to = r * this.modes + f
      this.ampRe[to] = aRe
      this.ampIm[to] = aIm
      this.ampSize[to] = Math.sqrt(aRe * aRe + aIm * aIm)
    }
    for (const { chain, at, vectorsAt } of span.chains)
      for (let j = 0; j < chain.size; j++) {
        let amplitude = 0
        for (let k = 0; k < chain.size; k++)
          amplitude += row.cRe[chain.first + k]! * span.vectors[vectorsAt + j * chain.size + k]!
        const to = r * this.modes + at + j
        this.ampRe[to] = amplitude
        this.ampIm[to] = 0
        this.ampSize[to] = Math.abs(amplitude)
      }
    this.size[r] = grossSize(row, span.stateSize, span.inputSize)
  }

  /** Change the sign of a course. */
  negate(r: number, span: Span): void {
    for (let j = 0; j <= span.degree; j++) this.poly[r * stride + j]! *= -1
    for (let f = 0; f < span.fastCount; f++) {
      this.ampRe[r * this.modes + f]! *= -1
      this.ampIm[r * this.modes + f]! *= -1
    }
  }

  /** Value at time s; the span's exponentials must be at s. */
  value(r: number, span: Span, s: number): number {
    const at = r * stride
    let y = 0
    for (let j = span.degree; j >= 0; j--) y = y * s + this.poly[at + j]!
    const from = r * this.modes
    for (let f = 0; f < span.fastCount; f++)
      y += this.ampRe[from + f]! * span.expRe[f]! - this.ampIm[from + f]! * span.expIm[f]!
    return y
  }

  /** Rate at time s; the span's exponentials must be at s. */
  rate(r: number, span: Span, s: number): number {
    const at = r * stride
    let y = 0
    for (let j = span.degree; j >= 1; j--) y = y * s + j * this.poly[at + j]!
    const from = r * this.modes
    for (let f = 0; f < span.fastCount; f++)
      y += this.ampRe[from + f]! * span.slopeRe[f]! - this.ampIm[from + f]! * span.slopeIm[f]!
    return y
  }

  polynomial(r: number, span: Span, s: number): number {
    const at = r * stride
    let y = 0
    for (let j = span.degree; j >= 0; j--) y = y * s + this.poly[at + j]!
    return y
  }

  /** Bound of |second derivative| of the polynomial for 0 <= t <= s. */
  bend(r: number, span: Span, s: number): number {
    const at = r * stride
    let y = 0
    for (let j = span.degree; j >= 2; j--) y = y * s + j * (j - 1) * Math.abs(this.poly[at + j]!)
    return y
  }

  /** True when the second derivative of the polynomial keeps its sign over the span. */
  bendsOneWay(r: number, span: Span): boolean {
    const { degree, horizon } = span
    if (degree < 3) return true
    const at = r * stride
    let y = 0
    for (let j = degree; j >= 3; j--) y = (y + j * (j - 1) * Math.abs(this.poly[at + j]!)) * horizon
    return y <= 2 * Math.abs(this.poly[at + 2]!)
  }

  /**
   * Most by which the fast modes can lower (sign -1) or raise (sign +1) a course from the instant given to
   * the span's `decays` on, modes marked in `without` left aside.
   */
  swing(r: number, span: Span, sign: number, without?: Uint8Array): number {
    const from = r * this.modes
    const { decay, positive, fastCount } = span
    let total = 0
    for (let f = 0; f < fastCount; f++)
      if (without?.[f] !== 1 && (positive[f] === 0 || sign * this.ampRe[from + f]! > 0))
        total += this.ampSize[from + f]! * decay[f]!
    return total
  }
}
