import type { Layout } from './layout.ts'
import { expandWaveform, maxDegree, nextCorner } from './source.ts'

export const inputStride = maxDegree + 2

/** The inputs of a run: Taylor coefficients of every source at the present instant. */
export class InputBook {
  /** inputs x inputStride. */
  readonly coefficients: Float64Array
  /** Highest power present. */
  degree = 0
  /** True when no source moves by itself. */
  readonly constant: boolean
  /** Longest span on which the coefficients of all sines hold, s. */
  readonly longest_s: number
  private readonly layout: Layout
  private readonly knobs: Readonly<Record<string, number>>

  constructor(layout: Layout, knobs: Readonly<Record<string, number>>) {
    this.layout = layout
    this.knobs = knobs
    this.coefficients = new Float64Array(layout.inputs.length * inputStride)
    this.constant = layout.inputs.every((wave) => wave.kind === 'dc' || wave.kind === 'knob')
    this.longest_s = Math.min(
      Number.POSITIVE_INFINITY,
      ...layout.inputs.map((wave) =>
        wave.kind === 'sine' ? 0.5 / (2 * Math.PI * wave.frequency_Hz) : Number.POSITIVE_INFINITY,
      ),
    )
  }

  /** Expand all at `time_s`; sizes met are noted in `size`. */
  expand(time_s: number, slowCurrent: Float64Array, size: Float64Array): void {
    const { inputs: waves, slows } = this.layout
    const { coefficients } = this
    this.degree = 0
    for (let u = 0; u < waves.length; u++) {
      const wave = waves[u]!
      if (wave.kind === 'slow') continue
      const degree = expandWaveform(wave, this.knobs, time_s, coefficients, u * inputStride)
      if (degree > this.degree) this.degree = degree
      const here =
        wave.kind === 'sine'
          ? Math.abs(wave.offset) + Math.abs(wave.amplitude)
          : Math.abs(coefficients[u * inputStride]!)
      if (here > size[u]!) size[u] = here
    }
    for (let i = 0; i < slows.length; i++) {
      const { u } = slows[i]!
      coefficients[u * inputStride] = slowCurrent[i]!
      size[u] = Math.max(size[u]!, Math.abs(slowCurrent[i]!))
    }
  }

  /** Replace the values by those a time later on the same expansion. */
  shift(passed_s: number): void {
    for (let at = 0; at < this.coefficients.length; at += inputStride) {
      let value = 0
      for (let j = this.degree; j >= 0; j--) value = value * passed_s + this.coefficients[at + j]!
      this.coefficients[at] = value
    }
  }

  /** First corner of any source after `time_s`. */
  cornerAfter(time_s: number): number {
    let first = Number.POSITIVE_INFINITY
    if (this.constant) return first
    for (const wave of this.layout.inputs)
      if (wave.kind !== 'slow') first = Math.min(first, nextCorner(wave, time_s))
    return first
  }
}
