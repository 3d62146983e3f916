/**
 * Real Schur form A = Q T Q' of a small square matrix by Householder reduction to Hessenberg form and Francis
 * double-shift QR (Golub and Van Loan, Matrix Computations, 4th ed., 7.4 and 7.5). `a` is overwritten by T,
 * which is upper triangular but for 2 x 2 blocks. Returns Q, or undefined when it did not converge.
 */
export function realSchur(a: Float64Array, n: number): Float64Array | undefined {
  const q = new Float64Array(n * n)
  for (let i = 0; i < n; i++) q[i * n + i] = 1
  for (let k = 0; k + 2 < n; k++) reflect(a, q, n, k, k + 1, n, 0)
  let high = n - 1
  let turns = 0
  while (high > 0) {
    const low = blockStart(a, n, high, negligible(turns))
    if (low === high) {
      high--
      turns = 0
    } else if (low === high - 1) {
      splitRealPair(a, q, n, low)
      high -= 2
      turns = 0
    } else {
      if (++turns > 60) return undefined
      francisStep(a, q, n, low, high, turns % 12 === 11)
    }
  }
  return q
}

/**
 * Subdiagonal taken as zero, relative to the diagonal beside it: below rounding, for the sake of graded matrices,
 * unless the sweeps stall at rounding as they may at a multiple eigenvalue.
 */
const negligible = (turns: number): number => (turns < 20 ? 1e-17 : turns < 40 ? 3e-16 : 1e-14)

/** First row of the unreduced block that ends at `high`; negligible subdiagonals are cleared. */
function blockStart(a: Float64Array, n: number, high: number, least: number): number {
  for (let r = high; r > 0; r--) {
    const near = Math.abs(a[r * n + r]!) + Math.abs(a[(r - 1) * n + r - 1]!)
    const sub = Math.abs(a[r * n + r - 1]!)
    const sup = Math.abs(a[(r - 1) * n + r]!)
    if (sub <= least * near || (sub <= 1e-15 * near && sub * sup <= 1e-34 * near * near)) {
      a[r * n + r - 1] = 0
      return r
    }
  }
  return 0
}

const house = new Float64Array(64)

/**
 * Apply the reflection which clears column `column` below row `first` (rows first..end-1), from both sides.
 * With `given` > 0 the reflected vector is already in `house` (that many entries).
 */
function reflect(
  a: Float64Array,
  q: Float64Array,
  n: number,
  column: number,
  first: number,
  end: number,
  given: number,
): void {
  const m = given > 0 ? given : end - first
  if (given === 0) for (let i = 0; i < m; i++) house[i] = a[(first + i) * n + column]!
  let rest = 0
  for (let i = 1; i < m; i++) rest = Math.max(rest, Math.abs(house[i]!))
  if (rest === 0) return
  const top = Math.max(rest, Math.abs(house[0]!))
  let norm = 0
  for (let i = 0; i < m; i++) {
    house[i]! /= top
    norm += house[i]! ** 2
  }
  norm = Math.sqrt(norm)
  const head = house[0]! + (house[0]! >= 0 ? norm : -norm)
  const beta = -head / (house[0]! - head) // 2 / (v'v) scaled for v0 = 1
  house[0] = 1
  for (let i = 1; i < m; i++) house[i]! /= head
  for (let c = Math.max(column, 0); c < n; c++) {
    let dot = 0
    for (let i = 0; i < m; i++) dot += house[i]! * a[(first + i) * n + c]!
    dot *= beta
    for (let i = 0; i < m; i++) a[(first + i) * n + c]! -= dot * house[i]!
  }
  for (let r = 0; r < n; r++) {
    let dot = 0
    let dotQ = 0
    for (let i = 0; i < m; i++) {
      dot += a[r * n + first + i]! * house[i]!
      dotQ += q[r * n + first + i]! * house[i]!
    }
    dot *= beta
    dotQ *= beta
    for (let i = 0; i < m; i++) {
      a[r * n + first + i]! -= dot * house[i]!
      q[r * n + first + i]! -= dotQ * house[i]!
    }
  }
  if (column >= 0) for (let i = 1; i < m; i++) a[(first + i) * n + column] = 0
}

/** One implicit double-shift sweep over rows low..high. */
function francisStep(
  a: Float64Array,
  q: Float64Array,
  n: number,
  low: number,
  high: number,
  odd: boolean,
): void {
  const at = (r: number, c: number) => a[r * n + c]!
  let trace = at(high, high) + at(high - 1, high - 1)
  let det = at(high, high) * at(high - 1, high - 1) - at(high, high - 1) * at(high - 1, high)
  if (odd) {
    const kick = Math.abs(at(high, high - 1)) + Math.abs(at(high - 1, high - 2))
    trace = 1.5 * kick
    det = kick * kick
  }
  house[0] = at(low, low) ** 2 + at(low, low + 1) * at(low + 1, low) - trace * at(low, low) + det
  house[1] = at(low + 1, low) * (at(low, low) + at(low + 1, low + 1) - trace)
  house[2] = at(low + 1, low) * at(low + 2, low + 1)
  reflect(a, q, n, -1, low, high, 3)
  for (let k = low; k < high - 1; k++) reflect(a, q, n, k, k + 1, Math.min(k + 4, high + 1), 0)
}

/** Make the 2 x 2 block at `k` triangular when its eigenvalues are real. */
function splitRealPair(a: Float64Array, q: Float64Array, n: number, k: number): void {
  const b = a[k * n + k + 1]!
  const c = a[(k + 1) * n + k]!
  const half = (a[k * n + k]! - a[(k + 1) * n + k + 1]!) / 2
  const disc = half * half + b * c
  if (disc < 0 || c === 0) return
  // eigenvector (x, c) with x = half +- sqrt(disc), the larger in magnitude
  const x = half + (half >= 0 ? Math.sqrt(disc) : -Math.sqrt(disc))
  const size = Math.hypot(x, c)
  const cs = x / size
  const sn = c / size
  for (let j = 0; j < n; j++) {
    const u = a[k * n + j]!
    const v = a[(k + 1) * n + j]!
    a[k * n + j] = cs * u + sn * v
    a[(k + 1) * n + j] = cs * v - sn * u
  }
  for (const m of [a, q])
    for (let r = 0; r < n; r++) {
      const u = m[r * n + k]!
      const v = m[r * n + k + 1]!
      m[r * n + k] = cs * u + sn * v
      m[r * n + k + 1] = cs * v - sn * u
    }
  a[(k + 1) * n + k] = 0
}
