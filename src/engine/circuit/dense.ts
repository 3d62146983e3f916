/** Small dense matrices, row-major in Float64Array. */

/**
 * LU factors of a square matrix, rows equilibrated, with partial pivoting, in place.
 * Returns the row of a vanishing pivot, or -1 when regular. `order` receives the row permutation and `scale`
 * the row factors.
 */
export function factorLu(m: Float64Array, n: number, order: Int32Array, scale: Float64Array): number {
  for (let r = 0; r < n; r++) {
    let big = 0
    for (let c = 0; c < n; c++) big = Math.max(big, Math.abs(m[r * n + c]!))
    if (!(big > 0)) return r
    scale[r] = 1 / big
    for (let c = 0; c < n; c++) m[r * n + c]! /= big
    order[r] = r
  }
  for (let k = 0; k < n; k++) {
    let best = k
    for (let r = k + 1; r < n; r++) if (Math.abs(m[r * n + k]!) > Math.abs(m[best * n + k]!)) best = r
    const pivot = m[best * n + k]!
    if (!(Math.abs(pivot) > 1e-300)) return order[k]!
    if (best !== k) {
      for (let c = 0; c < n; c++) {
        const swap = m[k * n + c]!
        m[k * n + c] = m[best * n + c]!
        m[best * n + c] = swap
      }
      const swap = order[k]!
      order[k] = order[best]!
      order[best] = swap
    }
    for (let r = k + 1; r < n; r++) {
      const f = m[r * n + k]! / pivot
      if (f === 0) continue
      m[r * n + k] = f
      for (let c = k + 1; c < n; c++) m[r * n + c]! -= f * m[k * n + c]!
    }
  }
  return -1
}

/** Solve with the factors of `factorLu` for `width` right-hand sides (n x width), into `out`. */
export function solveLu(
  lu: Float64Array,
  n: number,
  order: Int32Array,
  scale: Float64Array,
  rhs: Float64Array,
  width: number,
  out: Float64Array,
): void {
  for (let r = 0; r < n; r++) {
    const from = order[r]!
    for (let j = 0; j < width; j++) out[r * width + j] = rhs[from * width + j]! * scale[from]!
    for (let c = 0; c < r; c++) {
      const f = lu[r * n + c]!
      if (f === 0) continue
      for (let j = 0; j < width; j++) out[r * width + j]! -= f * out[c * width + j]!
    }
  }
  for (let r = n - 1; r >= 0; r--) {
    for (let c = r + 1; c < n; c++) {
      const f = lu[r * n + c]!
      if (f === 0) continue
      for (let j = 0; j < width; j++) out[r * width + j]! -= f * out[c * width + j]!
    }
    const pivot = lu[r * n + r]!
    for (let j = 0; j < width; j++) out[r * width + j]! /= pivot
  }
}

/** Inverse of a square matrix, or undefined when singular. */
export function inverse(m: Float64Array, n: number): Float64Array | undefined {
  const lu = m.slice()
  const order = new Int32Array(n)
  const scale = new Float64Array(n)
  if (factorLu(lu, n, order, scale) >= 0) return undefined
  const unit = new Float64Array(n * n)
  for (let i = 0; i < n; i++) unit[i * n + i] = 1
  const out = new Float64Array(n * n)
  solveLu(lu, n, order, scale, unit, n, out)
  return out
}

/** True when a symmetric matrix has a Cholesky factor with relative pivots above `margin`. */
export function isPositiveDefinite(m: Float64Array, n: number, margin: number): boolean {
  const l = m.slice()
  for (let k = 0; k < n; k++) {
    const original = m[k * n + k]!
    let pivot = l[k * n + k]!
    for (let j = 0; j < k; j++) pivot -= l[k * n + j]! ** 2
    if (!(pivot > margin * original)) return false
    const root = Math.sqrt(pivot)
    l[k * n + k] = root
    for (let r = k + 1; r < n; r++) {
      let v = l[r * n + k]!
      for (let j = 0; j < k; j++) v -= l[r * n + j]! * l[k * n + j]!
      l[r * n + k] = v / root
    }
  }
  return true
}

/**
 * Row-reduce `m` (rows x columns) with complete pivoting inside its first `pivotColumns` columns. Afterwards
 * pivot row i has a one in column `pivots[i]` and zeros elsewhere in that column; rows from `rank` on vanish
 * in the pivot columns. `tolerance` is relative to the largest entry.
 */
export function rowReduce(
  m: Float64Array,
  rows: number,
  columns: number,
  pivotColumns: number,
  tolerance: number,
): { rank: number; pivots: number[] } {
  let largest = 0
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < pivotColumns; c++) largest = Math.max(largest, Math.abs(m[r * columns + c]!))
  const pivots: number[] = []
  for (let k = 0; k < rows; k++) {
    let best = 0
    let row = -1
    let column = -1
    for (let r = k; r < rows; r++)
      for (let c = 0; c < pivotColumns; c++) {
        const size = Math.abs(m[r * columns + c]!)
        if (size > best) {
          best = size
          row = r
          column = c
        }
      }
    if (!(best > tolerance * largest)) return { rank: k, pivots }
    for (let c = 0; c < columns; c++) {
      const swap = m[k * columns + c]!
      m[k * columns + c] = m[row * columns + c]!
      m[row * columns + c] = swap
    }
    const pivot = m[k * columns + column]!
    for (let c = 0; c < columns; c++) m[k * columns + c]! /= pivot
    for (let r = 0; r < rows; r++) {
      const f = m[r * columns + column]!
      if (r === k || f === 0) continue
      for (let c = 0; c < columns; c++) m[r * columns + c]! -= f * m[k * columns + c]!
      m[r * columns + column] = 0
    }
    pivots.push(column)
  }
  return { rank: rows, pivots }
}
