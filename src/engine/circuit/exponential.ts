/** Exponentials of small matrices and their integrals, also where the matrix is singular or defective. */

export const mostTerms = 60
const tiny = 1e-17

/**
 * e^(M s) for m x m rates with the eigenvalue `growth` furthest right and all others within `spread` of it: the
 * factor e^(growth s) apart, a series over a part of s and repeated squaring.
 */
export function exponential(
  rates: Float64Array,
  m: number,
  growth: number,
  spread: number,
  s: number,
): Float64Array {
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

/** Integral of e^(M t) over 0..s for m x m rates with eigenvalues up to `fastest`, by a series over a part of s and doubling: S(2 t) = S(t) + e^(T t) S(t). */
export function integralOf(rates: Float64Array, m: number, fastest: number, s: number): Float64Array {
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

/** Add a term (times `factor`); true while it changes the sum. */
export function addTerm(sum: Float64Array, term: Float64Array, factor = 1): boolean {
  let changes = false
  for (let i = 0; i < sum.length; i++) {
    const value = term[i]! * factor
    sum[i]! += value
    if (Math.abs(value) > tiny * Math.abs(sum[i]!)) changes = true
  }
  return changes
}

/** e^M by its series, for eigenvalues below 1 in magnitude. */
export function series(m: Float64Array, n: number): Float64Array {
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

export function transposed(m: Float64Array, n: number): Float64Array {
  return Float64Array.from(m, (_, at) => m[(at % n) * n + ((at / n) | 0)]!)
}

export const multiply = (a: Float64Array, b: Float64Array, n: number, factor: number): Float64Array => {
  const out = product(a, b, n, n, n)
  if (factor !== 1) for (let i = 0; i < out.length; i++) out[i]! *= factor
  return out
}

/** (rows x inner) times (inner x columns). */
export function product(
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
