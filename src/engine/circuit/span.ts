import { boundOf, type Chain, chainReach, followChain, spreadStart } from './chain.ts'
import { exponential } from './exponential.ts'
import { maxDegree } from './source.ts'
import type { Topology } from './topology.ts'

const stride = maxDegree + 2

/**
 * The exact course of a linear network from one instant on, as a function of the time s since then.
 * Every mode is a polynomial (its forced part, and all of a mode slow against the span) plus, for a fast mode,
 * `zeta_k e^(lambda_k s)`, or its part of the free course of a chain. Sources enter through their Taylor
 * coefficients. Valid for 0 <= s <= horizon.
 */
export class Span {
  topology: Topology | undefined
  degree = 0
  horizon = 0
  /** Sizes of states (lately) and of inputs (ever), for rounding. */
  readonly stateSize: Float64Array
  readonly inputSize: Float64Array
  /** Numbers of the fast modes. */
  readonly fast: Int32Array
  fastCount = 0
  /** Degree of the polynomial of each mode; what lies beyond in `polyRe` and `polyIm` does not count. */
  readonly degrees: Int32Array
  readonly polyRe: Float64Array
  readonly polyIm: Float64Array
  readonly zetaRe: Float64Array
  readonly zetaIm: Float64Array
  /** Fast modes before the first of a chain. */
  fastSingles = 0
  /** e^(lambda s) of the fast modes, in the order of `fast`, at the last instant asked for; states of chains. */
  readonly expRe: Float64Array
  readonly expIm: Float64Array
  /** Their derivatives by s. */
  readonly slopeRe: Float64Array
  readonly slopeIm: Float64Array
  /** Decay and ring rates of the fast modes, in the order of `fast`. */
  readonly sigma: Float64Array
  readonly omega: Float64Array
  /** Largest rate at which a fast mode moves, 1/s. */
  readonly pace: Float64Array
  /** 1 for a fast mode that is positive throughout. */
  readonly positive: Uint8Array
  /** Bound of |e^(lambda t)| for t from the instant last given to `decays` up to the horizon. */
  readonly decay: Float64Array
  /** Fast chains, each with its first place in the order of `fast` and in `vectors`. */
  readonly chains: { readonly chain: Chain; readonly at: number; readonly vectorsAt: number }[] = []
  /** Vectors n_j of the free courses of fast chains. */
  readonly vectors: Float64Array
  /** Most by which each mode departs from its start within the span; unbounded for those of fast chains. */
  readonly reach: Float64Array
  private turns: Float64Array[] = []
  private readonly turnRe: Float64Array
  private readonly turnIm: Float64Array

  constructor(states: number, inputs: number) {
    const n = Math.max(states, 1)
    this.stateSize = new Float64Array(n)
    this.inputSize = new Float64Array(inputs)
    this.fast = new Int32Array(n)
    this.degrees = new Int32Array(n)
    this.polyRe = new Float64Array(n * stride)
    this.polyIm = new Float64Array(n * stride)
    this.zetaRe = new Float64Array(n)
    this.zetaIm = new Float64Array(n)
    this.expRe = new Float64Array(n)
    this.expIm = new Float64Array(n)
    this.slopeRe = new Float64Array(n)
    this.slopeIm = new Float64Array(n)
    this.sigma = new Float64Array(n)
    this.omega = new Float64Array(n)
    this.pace = new Float64Array(n)
    this.positive = new Uint8Array(n)
    this.vectors = new Float64Array(n * n)
    this.decay = new Float64Array(n)
    this.reach = new Float64Array(n)
    this.turnRe = new Float64Array(n)
    this.turnIm = new Float64Array(n)
  }

  /** Start from free states `x` with input Taylor coefficients `u` (inputs x (maxDegree + 2)). */
  begin(topology: Topology, x: Float64Array, u: Float64Array, inputDegree: number, horizon: number): void {
    this.topology = topology
    this.horizon = horizon
    for (let i = 0; i < topology.n; i++)
      this.stateSize[i] = Math.max(Math.abs(x[i]!), 0.25 * this.stateSize[i]!)
    const { modes, n } = topology
    const { singles, wRe, wIm } = modes
    const { polyRe, polyIm, zetaRe, zetaIm } = this
    this.degree = this.sortModes(topology, inputDegree, horizon)
    let f = 0
    for (let k = 0; k < singles; k++) {
      const at = k * stride
      const degree = this.degrees[k]!
      this.force(topology, k, u, inputDegree, degree)
      let startRe = 0
      let startIm = 0
      for (let i = 0; i < n; i++) {
        startRe += wRe[k * n + i]! * x[i]!
        startIm += wIm[k * n + i]! * x[i]!
      }
      const s = modes.sigma[k]!
      const o = modes.omega[k]!
      if (f < this.fastSingles && this.fast[f] === k) {
        // forced part of a fast mode: p_j = ((j + 1) p_(j+1) - b_j) / lambda
        const size = s * s + o * o
        let nextRe = 0
        let nextIm = 0
        for (let j = degree; j >= 0; j--) {
          const re = (j + 1) * nextRe - polyRe[at + j]!
          const im = (j + 1) * nextIm - polyIm[at + j]!
          nextRe = (re * s + im * o) / size
          nextIm = (im * s - re * o) / size
          polyRe[at + j] = nextRe
          polyIm[at + j] = nextIm
        }
        zetaRe[k] = startRe - nextRe
        zetaIm[k] = startIm - nextIm
        f++
      } else {
        // slow mode: z_(j+1) = (lambda z_j + b_j) / (j + 1)
        let zRe = startRe
        let zIm = startIm
        for (let j = 0; j <= degree; j++) {
          const bRe = polyRe[at + j]!
          const bIm = polyIm[at + j]!
          polyRe[at + j] = zRe
          polyIm[at + j] = zIm
          const re = (s * zRe - o * zIm + bRe) / (j + 1)
          zIm = (s * zIm + o * zRe + bIm) / (j + 1)
          zRe = re
        }
        zetaRe[k] = 0
        zetaIm[k] = 0
      }
    }
    for (const chain of modes.chains) {
      const { first, size } = chain
      for (let k = first; k < first + size; k++) {
        this.force(topology, k, u, inputDegree, this.degree)
        let start = 0
        for (let i = 0; i < n; i++) start += wRe[k * n + i]! * x[i]!
        zetaRe[k] = start
      }
      const fast = this.chains.find((item) => item.chain === chain)
      if (fast === undefined) this.expandChain(chain, this.degree)
      else this.forceChain(chain, fast.vectorsAt, this.degree)
    }
    this.measureReach(topology)
  }

  /** Polynomials depart by the sum of their terms, fast modes by twice their amplitude or less. */
  private measureReach({ modes }: Topology): void {
    const { reach, polyRe, polyIm, horizon, degrees } = this
    for (let k = 0; k < modes.count; k++) {
      let re = 0
      let im = 0
      for (let j = degrees[k]!; j >= 1; j--) {
        re = (re + Math.abs(polyRe[k * stride + j]!)) * horizon
        im = (im + Math.abs(polyIm[k * stride + j]!)) * horizon
      }
      reach[k] = re + im
    }
    for (let f = 0; f < this.fastSingles; f++) {
      const k = this.fast[f]!
      const sigma = this.sigma[f]!
      const most =
        sigma > 0 ? Math.exp(sigma * horizon) + 1 : this.omega[f] === 0 ? 1 - Math.exp(sigma * horizon) : 2
      reach[k]! += Math.hypot(this.zetaRe[k]!, this.zetaIm[k]!) * most
    }
    for (const { chain } of this.chains) reach.fill(Number.MAX_VALUE, chain.first, chain.first + chain.size)
  }

  /** Tell fast modes from slow ones, and the degrees of their polynomials; returns the greatest. */
  private sortModes({ modes }: Topology, inputDegree: number, horizon: number): number {
    const { degrees } = this
    let most = Math.min(maxDegree, inputDegree + 1)
    let f = 0
    for (let k = 0; k < modes.singles; k++) {
      const sigma = modes.sigma[k]!
      const omega = modes.omega[k]!
      const speed = (Math.abs(sigma) + omega) * horizon
      if (speed <= 0.5) {
        degrees[k] = Math.min(maxDegree, degreeFor(speed) + inputDegree)
        most = Math.max(most, degrees[k]!)
        continue
      }
      degrees[k] = inputDegree
      this.fast[f] = k
      this.sigma[f] = sigma
      this.omega[f] = omega
      this.pace[f] = Math.max(Math.abs(sigma), omega)
      this.positive[f] = omega === 0 ? 1 : 0
      f++
    }
    this.fastSingles = f
    this.chains.length = 0
    let vectorsAt = 0
    for (const chain of modes.chains) {
      const speed = chain.fastest * horizon
      if (speed <= chainReach(chain.size)) {
        most = Math.max(most, Math.min(maxDegree, degreeFor(speed) + chain.size - 1 + inputDegree))
        continue
      }
      this.chains.push({ chain, at: f, vectorsAt })
      vectorsAt += chain.size * chain.size
      for (let k = 0; k < chain.size; k++, f++) {
        this.fast[f] = chain.first + k
        this.pace[f] = (chain.fastest * (1 + chain.size)) / 2
        this.positive[f] = chain.real ? 1 : 0
      }
    }
    this.fastCount = f
    most = Math.max(inputDegree, most)
    degrees.fill(most, modes.singles, modes.count)
    return most
  }

  /** Forcing of mode k by the inputs as a polynomial, into its place. */
  private force(topology: Topology, k: number, u: Float64Array, inputDegree: number, degree: number): void {
    const { inputs } = topology
    const at = k * stride
    for (let j = 0; j <= degree; j++) {
      let re = 0
      let im = 0
      if (j <= inputDegree)
        for (let i = 0; i < inputs; i++) {
          const value = u[i * stride + j]!
          re += topology.bRe[k * inputs + i]! * value
          im += topology.bIm[k * inputs + i]! * value
          const rate = (j + 1) * u[i * stride + j + 1]!
          if (rate !== 0) {
            re += topology.rateRe[k * inputs + i]! * rate
            im += topology.rateIm[k * inputs + i]! * rate
          }
        }
      this.polyRe[at + j] = re
      this.polyIm[at + j] = im
    }
  }

  /** Forced part of a fast chain: p_j = T^-1 ((j + 1) p_(j+1) - b_j). Its states are in zeta. */
  private forceChain(chain: Chain, vectorsAt: number, degree: number): void {
    const { first, size, inverse } = chain
    const { polyRe, zetaRe, zetaIm, vectors } = this
    const rhs = new Float64Array(size)
    for (let j = degree; j >= 0; j--) {
      for (let k = 0; k < size; k++) {
        const at = (first + k) * stride + j
        rhs[k] = (j < degree ? (j + 1) * polyRe[at + 1]! : 0) - polyRe[at]!
      }
      for (let k = 0; k < size; k++) {
        let value = 0
        for (let l = 0; l < size; l++) value += inverse![k * size + l]! * rhs[l]!
        polyRe[(first + k) * stride + j] = value
      }
    }
    for (let k = 0; k < size; k++) {
      vectors[vectorsAt + k] = zetaRe[first + k]! - polyRe[(first + k) * stride]!
      zetaRe[first + k] = 0
      zetaIm[first + k] = 0
    }
    spreadStart(chain, vectors, vectorsAt)
  }

  /** Slow chain: z_(j+1) = (T z_j + b_j) / (j + 1). */
  private expandChain(chain: Chain, degree: number): void {
    const { first, size, rates } = chain
    const { polyRe, zetaRe, zetaIm } = this
    const next = new Float64Array(size)
    for (let j = 0; j <= degree; j++) {
      for (let k = 0; k < size; k++) {
        let value = polyRe[(first + k) * stride + j]!
        for (let l = 0; l < size; l++) value += rates[k * size + l]! * zetaRe[first + l]!
        next[k] = value / (j + 1)
      }
      for (let k = 0; k < size; k++) {
        polyRe[(first + k) * stride + j] = zetaRe[first + k]!
        zetaRe[first + k] = next[k]!
      }
    }
    zetaRe.fill(0, first, first + size)
    zetaIm.fill(0, first, first + size)
  }

  /** Fill exponentials and slopes at time s. */
  exponentials(s: number): void {
    const { sigma, omega, expRe, expIm } = this
    for (let f = 0; f < this.fastSingles; f++) {
      const size = s === 0 ? 1 : Math.exp(sigma[f]! * s)
      const o = omega[f]!
      if (o === 0 || size === 0 || s === 0) {
        expRe[f] = size
        expIm[f] = 0
      } else {
        expRe[f] = size * Math.cos(o * s)
        expIm[f] = size * Math.sin(o * s)
      }
    }
    for (const { chain, at } of this.chains) followChain(chain, s, expRe, at)
    this.slopes()
  }

  private slopes(): void {
    const { sigma, omega, expRe, expIm, slopeRe, slopeIm } = this
    for (let f = 0; f < this.fastSingles; f++) {
      slopeRe[f] = sigma[f]! * expRe[f]! - omega[f]! * expIm[f]!
      slopeIm[f] = sigma[f]! * expIm[f]! + omega[f]! * expRe[f]!
    }
    for (const { chain, at } of this.chains) turnChain(chain.flow, chain.size, expRe, slopeRe, at)
  }

  /** Prepare `rotate` to move the exponentials on by `step`. */
  prepareRotation(step: number): void {
    for (let f = 0; f < this.fastSingles; f++) {
      const size = Math.exp(this.sigma[f]! * step)
      const angle = this.omega[f]! * step
      this.turnRe[f] = angle === 0 ? size : size * Math.cos(angle)
      this.turnIm[f] = angle === 0 ? 0 : size * Math.sin(angle)
    }
    this.chains.forEach(({ chain }, c) => {
      this.turns[c] = exponential(chain.flow, chain.size, chain.growth, chain.spread, step)
    })
  }

  /** Move the exponentials on by the prepared step. */
  rotate(): void {
    const { expRe, expIm, turnRe, turnIm } = this
    for (let f = 0; f < this.fastSingles; f++) {
      const re = expRe[f]!
      const im = expIm[f]!
      expRe[f] = re * turnRe[f]! - im * turnIm[f]!
      expIm[f] = re * turnIm[f]! + im * turnRe[f]!
    }
    this.chains.forEach(({ chain, at }, c) => {
      turnChain(this.turns[c]!, chain.size, expRe, this.slopeRe, at)
      for (let i = at; i < at + chain.size; i++) expRe[i] = this.slopeRe[i]!
    })
    this.slopes()
  }

  decays(s: number): void {
    for (let f = 0; f < this.fastSingles; f++) {
      const sigma = this.sigma[f]!
      this.decay[f] = Math.exp(sigma * (sigma > 0 ? this.horizon : s))
    }
    for (const { chain, at } of this.chains)
      for (let j = 0; j < chain.size; j++) this.decay[at + j] = boundOf(chain, j, s, this.horizon)
  }

  /** Free states at time s, into `x`. Leaves the exponentials at s. */
  stateAt(s: number, x: Float64Array): void {
    const { modes, n } = this.topology!
    const { count, vRe, vIm } = modes
    this.exponentials(s)
    x.fill(0, 0, n)
    let f = 0
    for (let k = 0; k < count; k++) {
      const at = k * stride
      let re = 0
      let im = 0
      for (let j = this.degrees[k]!; j >= 0; j--) {
        re = re * s + this.polyRe[at + j]!
        im = im * s + this.polyIm[at + j]!
      }
      if (f < this.fastSingles && this.fast[f] === k) {
        const a = this.zetaRe[k]!
        const b = this.zetaIm[k]!
        re += a * this.expRe[f]! - b * this.expIm[f]!
        im += a * this.expIm[f]! + b * this.expRe[f]!
        f++
      }
      for (let i = 0; i < n; i++) x[i]! += vRe[i * count + k]! * re - vIm[i * count + k]! * im
    }
    for (const { chain, at, vectorsAt } of this.chains)
      for (let j = 0; j < chain.size; j++)
        for (let k = 0; k < chain.size; k++) {
          const z = this.vectors[vectorsAt + j * chain.size + k]! * this.expRe[at + j]!
          for (let i = 0; i < n; i++) x[i]! += vRe[i * count + chain.first + k]! * z
        }
  }
}

/** out[at ..] = M z[at ..]. */
function turnChain(m: Float64Array, size: number, z: Float64Array, out: Float64Array, at: number): void {
  for (let i = 0; i < size; i++) {
    let value = 0
    for (let j = 0; j < size; j++) value += m[i * size + j]! * z[at + j]!
    out[at + i] = value
  }
}

/** Degree for which the remainder of e^x at x = speed is below 1e-16. */
function degreeFor(speed: number): number {
  let degree = 1
  let term = speed
  while (Math.abs(term) > 1e-16 && degree < maxDegree) {
    degree++
    term *= speed / degree
  }
  return degree
}
