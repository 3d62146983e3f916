import type { Polynomial } from './polynomial.ts'

/** Roots as real and imaginary parts. */
export interface Roots {
  readonly re: Float64Array
  readonly im: Float64Array
}

export interface RootsFailure {
  readonly ok: false
  readonly code: 'diverged' | 'bad-value'
  readonly message: string
}

/**
 * All roots of a real polynomial by the Ehrlich-Aberth iteration, started on circles whose radii come from the upper
 * hull of the coefficients' logarithms, which serves roots spread over many decades. Each root stops when its
 * correction is lost in rounding. Source: D. A. Bini, Numerical Algorithms 13 (1996) 179-200 (from memory).
 */
export function roots(polynomial: Polynomial): ({ readonly ok: true } & Roots) | RootsFailure {
  let degree = polynomial.length - 1
  while (degree > 0 && polynomial[degree] === 0) degree--
  if (!polynomial.every(Number.isFinite))
    return { ok: false, code: 'bad-value', message: 'a polynomial coefficient is not a finite number' }
  const re = new Float64Array(degree)
  const im = new Float64Array(degree)
  let zeros = 0
  while (zeros < degree && polynomial[zeros] === 0) zeros++
  const a = polynomial.slice(zeros, degree + 1)
  const n = degree - zeros
  if (n > 0) {
    start(a, re, im)
    if (!iterate(a, n, re, im))
      return {
        ok: false,
        code: 'diverged',
        message: `the roots of a polynomial of degree ${n} were not found`,
      }
  }
  return { ok: true, re, im }
}

/** First guesses: for each edge of the upper hull of (k, log|a_k|), that many points on a circle of its slope. */
function start(a: readonly number[], re: Float64Array, im: Float64Array): void {
  const hull: number[] = []
  const height = a.map((c) => (c === 0 ? Number.NEGATIVE_INFINITY : Math.log(Math.abs(c))))
  for (let k = 0; k < a.length; k++) {
    if (height[k] === Number.NEGATIVE_INFINITY) continue
    while (hull.length > 1) {
      const q = hull[hull.length - 1]!
      const p = hull[hull.length - 2]!
      if ((height[q]! - height[p]!) * (k - p) > (height[k]! - height[p]!) * (q - p)) break
      hull.pop()
    }
    hull.push(k)
  }
  let index = 0
  for (let e = 1; e < hull.length; e++) {
    const from = hull[e - 1]!
    const to = hull[e]!
    const radius = Math.exp((height[from]! - height[to]!) / (to - from))
    for (let k = 0; k < to - from; k++, index++) {
      const angle = (2 * Math.PI * k) / (to - from) + 0.7 + 0.4 * e
      re[index] = radius * Math.cos(angle)
      im[index] = radius * Math.sin(angle)
    }
  }
}

function iterate(a: readonly number[], n: number, re: Float64Array, im: Float64Array): boolean {
  const done = new Uint8Array(n)
  let left = n
  for (let sweep = 0; sweep < 200 && left > 0; sweep++) {
    for (let k = 0; k < n; k++) {
      if (done[k]) continue
      const x = re[k]!
      const y = im[k]!
      const size = Math.hypot(x, y)
      let pr = 0
      let pi = 0
      let dr = 0
      let di = 0
      let bound = 0
      for (let j = n; j >= 0; j--) {
        const t = dr * x - di * y + pr
        di = dr * y + di * x + pi
        dr = t
        const u = pr * x - pi * y + a[j]!
        pi = pr * y + pi * x
        pr = u
        bound = bound * size + Math.abs(a[j]!)
      }
      if (Math.hypot(pr, pi) <= 4e-16 * n * bound) {
        done[k] = 1
        left--
        continue
      }
      const square = dr * dr + di * di
      let wr = square > 0 ? (pr * dr + pi * di) / square : 0.1 * size
      let wi = square > 0 ? (pi * dr - pr * di) / square : 0
      let sr = 0
      let si = 0
      for (let j = 0; j < n; j++) {
        if (j === k) continue
        const ex = x - re[j]!
        const ey = y - im[j]!
        const e2 = Math.max(ex * ex + ey * ey, 1e-300)
        sr += ex / e2
        si -= ey / e2
      }
      const qr = 1 - (wr * sr - wi * si)
      const qi = -(wr * si + wi * sr)
      const q2 = qr * qr + qi * qi
      if (q2 > 0) {
        const t = (wr * qr + wi * qi) / q2
        wi = (wi * qr - wr * qi) / q2
        wr = t
      }
      re[k] = x - wr
      im[k] = y - wi
      if (Math.hypot(wr, wi) <= 1e-15 * size) {
        done[k] = 1
        left--
      }
    }
  }
  return left === 0
}
