import { exponential, integralOf } from './exponential.ts'
import type { OutputRow } from './output-row.ts'
import type { Plan } from './plan.ts'
import type { Runner, Watcher } from './runner.ts'
import { maxDegree } from './source.ts'
import type { Topology } from './topology.ts'

const stride = maxDegree + 2

/**
 * Derivative of the states with respect to the states at the start of a cycle: e^(A h) over every span, and
 * the saltation term (f- minus f+) dt at every event whose time depends on the start (M. di Bernardo et al.,
 * Piecewise-smooth Dynamical Systems, 2008, 2.5). It also carries the derivative of the time integral of one
 * output.
 */
export class Sensitivity implements Watcher {
  readonly n: number
  /** n x n, row-major: d state i / d start j. */
  readonly matrix: Float64Array
  /** d (integral of the output) / d start. */
  readonly gradient: Float64Array
  /** Output followed, or -1. */
  private readonly output: number
  private readonly projected: Float64Array
  private readonly before: Float64Array
  private readonly after: Float64Array

  constructor(n: number, output: number) {
    this.n = n
    this.output = output
    this.matrix = new Float64Array(n * n)
    this.gradient = new Float64Array(n)
    this.projected = new Float64Array(2 * n)
    this.before = new Float64Array(n)
    this.after = new Float64Array(n)
  }

  reset(): void {
    this.matrix.fill(0)
    this.gradient.fill(0)
    for (let i = 0; i < this.n; i++) this.matrix[i * this.n + i] = 1
  }

  span(runner: Runner, h: number): void {
    const { n, matrix, projected, gradient } = this
    const { modes } = runner.plan.topology
    const { count, singles, chains, vRe, vIm, wRe, wIm } = modes
    const row = this.output >= 0 ? runner.plan.outputs[this.output]! : undefined
    const next = new Float64Array(n * n)
    for (let k = 0; k < singles; k++) {
      const s = modes.sigma[k]! * h
      const o = modes.omega[k]! * h
      const size = Math.exp(s)
      const eRe = size * Math.cos(o)
      const eIm = size * Math.sin(o)
      // (e^(lambda h) - 1) / lambda
      let iRe = h * (1 + s / 2)
      let iIm = (h * o) / 2
      if (Math.abs(s) + o > 1e-6) {
        const d = (s * s + o * o) / h
        const aRe = o === 0 ? Math.expm1(s) : eRe - 1
        iRe = (aRe * s + eIm * o) / d
        iIm = (eIm * s - aRe * o) / d
      }
      for (let j = 0; j < n; j++) {
        let re = 0
        let im = 0
        for (let i = 0; i < n; i++) {
          const m = matrix[i * n + j]!
          re += wRe[k * n + i]! * m
          im += wIm[k * n + i]! * m
        }
        if (row !== undefined) {
          const qRe = iRe * re - iIm * im
          const qIm = iRe * im + iIm * re
          gradient[j]! += row.cRe[k]! * qRe - row.cIm[k]! * qIm
        }
        projected[2 * j] = eRe * re - eIm * im
        projected[2 * j + 1] = eRe * im + eIm * re
      }
      for (let i = 0; i < n; i++) {
        const re = vRe[i * count + k]!
        const im = vIm[i * count + k]!
        for (let j = 0; j < n; j++) next[i * n + j]! += re * projected[2 * j]! - im * projected[2 * j + 1]!
      }
    }
    for (const chain of chains) {
      const { first, size } = chain
      const start = new Float64Array(size * n)
      for (let k = 0; k < size; k++)
        for (let i = 0; i < n; i++) {
          const f = wRe[(first + k) * n + i]!
          if (f !== 0) for (let j = 0; j < n; j++) start[k * n + j]! += f * matrix[i * n + j]!
        }
      const e = exponential(chain.rates, size, chain.growth, chain.spread, h)
      const sum = row === undefined ? undefined : integralOf(chain.rates, size, chain.fastest, h)
      for (let k = 0; k < size; k++)
        for (let l = 0; l < size; l++)
          for (let j = 0; j < n; j++) {
            const moved = e[k * size + l]! * start[l * n + j]!
            for (let i = 0; i < n; i++) next[i * n + j]! += vRe[i * count + first + k]! * moved
            if (sum !== undefined)
              gradient[j]! += row!.cRe[first + k]! * sum[k * size + l]! * start[l * n + j]!
          }
    }
    matrix.set(next)
  }

  crossing(
    runner: Runner,
    row: OutputRow,
    rate: number,
    sinceRow: Float64Array | undefined,
    slope: number,
  ): void {
    const { n, matrix } = this
    const out = new Float64Array(n)
    if (Math.abs(rate) > 1e-300)
      for (let j = 0; j < n; j++) {
        let g = sinceRow === undefined ? 0 : -slope * sinceRow[j]!
        for (let i = 0; i < n; i++) g += row.x[i]! * matrix[i * n + j]!
        out[j] = -g / rate
      }
    runner.noteCrossing(out)
  }

  settled(runner: Runner, before: Plan, row: Float64Array | undefined): void {
    if (row === undefined || before === runner.plan) return
    const { n, matrix } = this
    stateRate(before.topology, runner, this.before)
    stateRate(runner.plan.topology, runner, this.after)
    for (let i = 0; i < n; i++) {
      const jump = this.before[i]! - this.after[i]!
      if (jump !== 0) for (let j = 0; j < n; j++) matrix[i * n + j]! += jump * row[j]!
    }
    if (this.output < 0) return
    const jump =
      runner.valueOf(before.outputs[this.output]!) - runner.valueOf(runner.plan.outputs[this.output]!)
    for (let j = 0; j < n; j++) this.gradient[j]! += jump * row[j]!
  }
}

/** Rates of the free states in a topology at the runner's present states and inputs. */
function stateRate({ n, inputs, rates }: Topology, runner: Runner, out: Float64Array): void {
  const width = n + 2 * inputs
  for (let i = 0; i < n; i++) {
    let value = 0
    for (let j = 0; j < n; j++) value += rates[i * width + j]! * runner.x[j]!
    for (let u = 0; u < inputs; u++) {
      value += rates[i * width + n + u]! * runner.inputs[u * stride]!
      value += rates[i * width + n + inputs + u]! * runner.inputs[u * stride + 1]!
    }
    out[i] = value
  }
}
