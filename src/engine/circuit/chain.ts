import { inverse } from './dense.ts'
import { exponential } from './exponential.ts'
import type { Root } from './spectrum.ts'

/**
 * States that share close eigenvalues and are kept together, z' = T z, because eigenvectors of their own would be
 * (nearly) parallel: equal poles in cascade, a critically damped pair, integrators behind one another.
 *
 * Free courses are `z(t) = sum_j n_j f_j(t)` with Newton's divided differences of e^(lambda t) over the eigenvalues,
 * which stay well defined where these coincide (t^j e^(lambda t) / j!). The vectors follow from the start,
 * n_1 = z(0), n_(j+1) = (T - lambda_j) n_j / beta, the courses from f' = H f, f(0) = (1, 0, ...), with a real double
 * step for a conjugate pair. T n = n H closes by the theorem of Cayley and Hamilton.
 */
export interface Chain {
  /** Number of its first mode; the others follow. */
  readonly first: number
  readonly size: number
  /** T, row-major. */
  readonly rates: Float64Array
  /** Inverse of T; absent when T is singular. */
  readonly inverse: Float64Array | undefined
  /** H, with the eigenvalues on its diagonal and beta below it. */
  readonly flow: Float64Array
  readonly flowInverse: Float64Array | undefined
  readonly beta: number
  /** True when all eigenvalues are real: then every f_j is positive. */
  readonly real: boolean
  /** Largest real part of an eigenvalue. */
  readonly growth: number
  /** Largest distance of an eigenvalue from `growth`. */
  readonly spread: number
  /** Largest and smallest magnitude of an eigenvalue. */
  readonly fastest: number
  readonly slowest: number
  readonly roots: readonly Root[]
}

/** Largest product of rate and time for which a chain is expanded in powers of time. */
export const chainReach = (size: number): number => 0.5 / (0.75 + 0.25 * size)

/** A chain with matrix T whose eigenvalues are known, conjugates side by side. */
export function makeChain(first: number, size: number, rates: Float64Array, roots: readonly Root[]): Chain {
  let growth = Number.NEGATIVE_INFINITY
  let fastest = 0
  let slowest = Number.POSITIVE_INFINITY
  for (const { re, im } of roots) {
    growth = Math.max(growth, re)
    fastest = Math.max(fastest, Math.hypot(re, im))
    slowest = Math.min(slowest, Math.hypot(re, im))
  }
  let spread = 0
  for (const { re, im } of roots) spread = Math.max(spread, Math.hypot(re - growth, im))
  const beta = fastest > 0 ? fastest : 1
  const flow = new Float64Array(size * size)
  roots.forEach(({ re, im }, j) => {
    flow[j * size + j] = re
    if (j + 1 < size) flow[(j + 1) * size + j] = beta
    if (im > 0) flow[j * size + j + 1] = (-im * im) / beta
  })
  return {
    first,
    size,
    rates,
    inverse: inverse(rates, size),
    flow,
    flowInverse: inverse(flow, size),
    beta,
    real: roots.every(({ im }) => im === 0),
    growth,
    spread,
    fastest,
    slowest,
    roots,
  }
}

/** Vectors n_j of a free course into out[j * size + k], from n_1 already there. */
export function spreadStart(chain: Chain, out: Float64Array, at: number): void {
  const { size: m, rates, flow, beta } = chain
  for (let j = 0; j + 1 < m; j++) {
    const back = j > 0 ? flow[(j - 1) * m + j]! : 0
    for (let k = 0; k < m; k++) {
      let value = -flow[j * m + j]! * out[at + j * m + k]!
      if (back !== 0) value -= back * out[at + (j - 1) * m + k]!
      for (let l = 0; l < m; l++) value += rates[k * m + l]! * out[at + j * m + l]!
      out[at + (j + 1) * m + k] = value / beta
    }
  }
}

/** Longest time a chain can be followed at once, s: one with rates of very different size is expanded in powers. */
export const longestOf = ({ size, fastest, slowest }: Chain): number =>
  fastest > 8 * slowest ? chainReach(size) / fastest : Number.POSITIVE_INFINITY

const mostTerms = 60

/**
 * Courses f(s) into out[at ..]: the factor e^(growth s) apart, the rest is a short series when the eigenvalues lie
 * close, as nilpotent terms end by themselves; else by squaring.
 */
export function followChain(chain: Chain, s: number, out: Float64Array, at: number): void {
  const { size: m, flow, growth, spread } = chain
  const factor = Math.exp(growth * s)
  if (factor < 1e-200) {
    out.fill(0, at, at + m)
    return
  }
  if (spread * s > 1) {
    const e = exponential(flow, m, growth, spread, s)
    for (let i = 0; i < m; i++) out[at + i] = e[i * m]!
    return
  }
  const { term, next } = scratchOf(m)
  for (let i = 0; i < m; i++) {
    term[i] = i === 0 ? 1 : 0
    out[at + i] = term[i]!
  }
  for (let k = 1; k < mostTerms; k++) {
    let small = k >= m
    for (let i = 0; i < m; i++) {
      let value = -growth * term[i]!
      for (let j = 0; j < m; j++) value += flow[i * m + j]! * term[j]!
      next[i] = (value * s) / k
    }
    for (let i = 0; i < m; i++) {
      term[i] = next[i]!
      out[at + i]! += next[i]!
      if (Math.abs(next[i]!) > 1e-17 * Math.abs(out[at + i]!)) small = false
    }
    if (small) break
  }
  for (let i = 0; i < m; i++) out[at + i]! *= factor
}

let scratch = { term: new Float64Array(8), next: new Float64Array(8) }

function scratchOf(m: number): { term: Float64Array; next: Float64Array } {
  if (scratch.term.length < m) scratch = { term: new Float64Array(m), next: new Float64Array(m) }
  return scratch
}

/** Bound of |f_j(t)| (j from 0) for t from `s` to `end`: e^(growth t) (beta t)^j / j! (Hermite and Genocchi). */
export function boundOf({ growth, beta }: Chain, j: number, s: number, end: number): number {
  const top = growth < 0 ? Math.min(end, Math.max(s, -j / growth)) : end
  let bound = Math.exp(growth * top)
  for (let i = 1; i <= j; i++) bound *= (beta * top) / i
  return bound
}
