import type { Chain } from './chain.ts'
import { addTerm, mostTerms, multiply, product, series, transposed } from './exponential.ts'
import type { Root } from './spectrum.ts'
import { SylvesterSolver } from './sylvester.ts'

/** A motion y' = M y from y(0) = (1, 0, ...) to y(1): courses of a chain, or real and imaginary part of one mode. */
export interface Motion {
  readonly size: number
  readonly rates: Float64Array
  readonly fastest: number
  readonly roots: readonly Root[]
  readonly end: Float64Array
}

export const chainMotion = ({ size, flow, fastest, roots }: Chain, end: Float64Array): Motion => ({
  size,
  rates: flow,
  fastest,
  roots,
  end,
})

/** The mode e^(lambda t), given lambda and its value at the end. */
export const modeMotion = (re: number, im: number, endRe: number, endIm: number): Motion => ({
  size: 2,
  rates: Float64Array.of(re, -im, im, re),
  fastest: Math.hypot(re, im),
  roots: [
    { re, im },
    { re, im: -im },
  ],
  end: Float64Array.of(endRe, endIm),
})

const sylvester = new SylvesterSolver()

/**
 * Integral G of p(t) q(t)' over 0..1 for two motions with rates P and Q times `h`, p.size x q.size. From
 * P G + G Q' = p(1) q(1)' - p(0) q(0)' when no sum of their eigenvalues nearly vanishes; else (an undamped ring with
 * itself) by doubling, where no quotient is formed.
 */
export function gramian(p: Motion, q: Motion, h: number): Float64Array {
  return mayCancel(p, q) ? byDoubling(p, q, h) : byEquation(p, q, h)
}

const mayCancel = (p: Motion, q: Motion): boolean =>
  p.roots.some((x) =>
    q.roots.some(
      (y) => Math.hypot(x.re + y.re, x.im + y.im) < 0.1 * (Math.hypot(x.re, x.im) + Math.hypot(y.re, y.im)),
    ),
  )

function byEquation(p: Motion, q: Motion, h: number): Float64Array {
  const { size: a } = p
  const { size: b } = q
  const out = new Float64Array(a * b)
  for (let i = 0; i < a; i++) for (let j = 0; j < b; j++) out[i * b + j] = (p.end[i]! * q.end[j]!) / h
  out[0]! -= 1 / h
  const right = transposed(q.rates, b).map((value) => -value)
  sylvester.solve(p.rates, 0, a, a, right, 0, b, b, out)
  return out
}

/** Series over a part of the time, then G(2 t) = G(t) + e^(P t) G(t) e^(Q t)'. */
function byDoubling(p: Motion, q: Motion, h: number): Float64Array {
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
