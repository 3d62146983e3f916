import { inverse } from './dense.ts'
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
const tiny = 1e-17

/**
 * Courses f(s) into out[at ..]: the factor e^(growth s) apart, the rest is a short series when the eigenvalues lie
 * close, as nilpotent terms end by themselves; else by squaring.
 */
export function followChain(chain: Chain, s: number, out: Float64Array, at: number): void {
  const { size: m, flow, growth, spread } = chain
  if (spread * s > 1) {
    const e = exponential(chain, flow, s)
    for (let i = 0; i < m; i++) out[at + i] = e[i * m]!
    return
  }
  const factor = Math.exp(growth * s)
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
      if (Math.abs(next[i]!) > tiny * Math.abs(out[at + i]!)) small = false
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

/** e^(M s) of T or H of a chain, by a series in M - growth and repeated squaring. */
export function exponential(chain: Chain, rates: Float64Array, s: number): Float64Array {
  const { size: m, growth, spread } = chain
  const halvings = Math.max(0, Math.ceil(Math.log2(spread * s + 1e-300)))
  const step = s / 2 ** halvings
  const shifted = Float64Array.from(rates, (value, i) => (i % (m + 1) === 0 ? value - growth : value) * step)
  let e = unit(m)
  let term = unit(m)
  for (let k = 1; k < mostTerms; k++) {
    term = multiply(term, shifted, m, 1 / k)
    if (!addTerm(e, term) && k >= m) break
  }
  for (let i = 0; i < halvings; i++) e = multiply(e, e, m, 1)
  const factor = Math.exp(growth * s)
  for (let i = 0; i < e.length; i++) e[i]! *= factor
  return e
}

/** Integral of e^(T t) over 0..s by a series over a part of s and doubling: S(2 t) = S(t) + e^(T t) S(t). */
export function integralOf(chain: Chain, s: number): Float64Array {
  const { size: m, rates, fastest } = chain
  const halvings = Math.max(0, Math.ceil(Math.log2(2 * fastest * s + 1e-300)))
  const step = s / 2 ** halvings
  const scaled = rates.map((value) => value * step)
  let e = unit(m)
  let term = unit(m)
  const sum = unit(m)
  for (let k = 1; k < mostTerms; k++) {
    term = multiply(term, scaled, m, 1 / k)
    addTerm(e, term)
    if (!addTerm(sum, term, 1 / (k + 1)) && k >= m) break
  }
  for (let i = 0; i < sum.length; i++) sum[i]! *= step
  for (let i = 0; i < halvings; i++) {
    const more = multiply(e, sum, m, 1)
    for (let j = 0; j < sum.length; j++) sum[j]! += more[j]!
    e = multiply(e, e, m, 1)
  }
  return sum
}

/** A motion y' = M y from y(0) = (1, 0, ...): courses of a chain, or the real and imaginary part of one mode. */
export interface Motion {
  readonly size: number
  readonly rates: Float64Array
  readonly fastest: number
}

export const motionOf = ({ size, flow, fastest }: Chain): Motion => ({ size, rates: flow, fastest })

/**
 * Integral of p(t) q(t)' over 0..1 for two motions with rates times `h`, p.size x q.size: series over a part,
 * then doubling, G(2 t) = G(t) + e^(P t) G(t) e^(Q t)'. No quotient is formed, so rates may cancel (an undamped ring
 * with itself).
 */
export function gramian(p: Motion, q: Motion, h: number): Float64Array {
  const a = p.size
  const b = q.size
  const halvings = Math.max(0, Math.ceil(Math.log2((p.fastest + q.fastest) * h + 1e-300)))
  const step = h / 2 ** halvings
  const left = p.rates.map((value) => value * step)
  const right = transposed(q.rates, b).map((value) => value * step)
  let term = new Float64Array(a * b)
  term[0] = 1
  const sum = term.slice()
  for (let k = 1; k < mostTerms; k++) {
    const one = product(left, term, a, a, b)
    const other = product(term, right, a, b, b)
    term = one.map((value, i) => (value + other[i]!) / k)
    if (!addTerm(sum, term, 1 / (k + 1)) && k >= a + b) break
  }
  const share = 1 / 2 ** halvings
  for (let i = 0; i < sum.length; i++) sum[i]! *= share
  if (halvings > 0) {
    let eLeft = series(left, a)
    let eRight = series(right, b)
    for (let i = 0; i < halvings; i++) {
      const more = product(product(eLeft, sum, a, a, b), eRight, a, b, b)
      for (let j = 0; j < sum.length; j++) sum[j]! += more[j]!
      if (i + 1 === halvings) break
      eLeft = multiply(eLeft, eLeft, a, 1)
      eRight = multiply(eRight, eRight, b, 1)
    }
  }
  return sum
}

/** Bound of |f_j(t)| (j from 0) for t from `s` to `end`: e^(growth t) (beta t)^j / j! (Hermite and Genocchi). */
export function boundOf({ growth, beta }: Chain, j: number, s: number, end: number): number {
  const top = growth < 0 ? Math.min(end, Math.max(s, -j / growth)) : end
  let bound = Math.exp(growth * top)
  for (let i = 1; i <= j; i++) bound *= (beta * top) / i
  return bound
}

/** Add a term (times `factor`); true while it changes the sum. */
function addTerm(sum: Float64Array, term: Float64Array, factor = 1): boolean {
  let changes = false
  for (let i = 0; i < sum.length; i++) {
    const value = term[i]! * factor
    sum[i]! += value
    if (Math.abs(value) > tiny * Math.abs(sum[i]!)) changes = true
  }
  return changes
}

/** e^M by its series, for eigenvalues below 1 in magnitude. */
function series(m: Float64Array, n: number): Float64Array {
  const sum = unit(n)
  let term = unit(n)
  for (let k = 1; k < mostTerms; k++) {
    term = multiply(term, m, n, 1 / k)
    if (!addTerm(sum, term) && k >= n) break
  }
  return sum
}

function unit(n: number): Float64Array {
  const out = new Float64Array(n * n)
  for (let i = 0; i < n; i++) out[i * n + i] = 1
  return out
}

function transposed(m: Float64Array, n: number): Float64Array {
  return Float64Array.from(m, (_, at) => m[(at % n) * n + ((at / n) | 0)]!)
}

const multiply = (a: Float64Array, b: Float64Array, n: number, factor: number): Float64Array => {
  const out = product(a, b, n, n, n)
  if (factor !== 1) for (let i = 0; i < out.length; i++) out[i]! *= factor
  return out
}

/** (rows x inner) times (inner x columns). */
function product(
  a: Float64Array,
  b: Float64Array,
  rows: number,
  inner: number,
  columns: number,
): Float64Array {
  const out = new Float64Array(rows * columns)
  for (let i = 0; i < rows; i++)
    for (let k = 0; k < inner; k++) {
      const f = a[i * inner + k]!
      if (f !== 0) for (let j = 0; j < columns; j++) out[i * columns + j]! += f * b[k * columns + j]!
    }
  return out
}
