/** Solves A Y - Y B = R for small blocks of larger matrices; work space is kept between calls. */
export class SylvesterSolver {
  private system = new Float64Array(16)

  /**
   * A is p x p at `a[aAt ..]` with row length `aStride`, B likewise; `rhs` (p x q) gives way to Y. A vanishing
   * pivot is replaced by rounding size, so blocks without a coupling may share eigenvalues.
   */
  solve(
    a: Float64Array,
    aAt: number,
    aStride: number,
    p: number,
    b: Float64Array,
    bAt: number,
    bStride: number,
    q: number,
    rhs: Float64Array,
  ): void {
    if (p === 1 && q === 1) {
      rhs[0] = rhs[0]! / away(a[aAt]! - b[bAt]!, Math.abs(b[bAt]!))
      return
    }
    const m = p * q
    if (this.system.length < m * m) this.system = new Float64Array(m * m)
    const { system } = this
    system.fill(0, 0, m * m)
    let scale = 0
    for (let j = 0; j < q; j++)
      for (let l = 0; l < q; l++) scale = Math.max(scale, Math.abs(b[bAt + j * bStride + l]!))
    for (let i = 0; i < p; i++)
      for (let j = 0; j < q; j++) {
        const row = (i * q + j) * m
        for (let k = 0; k < p; k++) system[row + k * q + j]! += a[aAt + i * aStride + k]!
        for (let k = 0; k < q; k++) system[row + i * q + k]! -= b[bAt + k * bStride + j]!
      }
    eliminate(system, m, rhs, scale)
  }
}

/** Gauss with partial pivoting; pivots below rounding are moved away from zero. */
function eliminate(s: Float64Array, m: number, rhs: Float64Array, scale: number): void {
  for (let k = 0; k < m; k++) {
    let best = k
    for (let r = k + 1; r < m; r++) if (Math.abs(s[r * m + k]!) > Math.abs(s[best * m + k]!)) best = r
    if (best !== k) {
      for (let c = k; c < m; c++) {
        const swap = s[k * m + c]!
        s[k * m + c] = s[best * m + c]!
        s[best * m + c] = swap
      }
      const swap = rhs[k]!
      rhs[k] = rhs[best]!
      rhs[best] = swap
    }
    const pivot = away(s[k * m + k]!, scale)
    s[k * m + k] = pivot
    for (let r = k + 1; r < m; r++) {
      const f = s[r * m + k]! / pivot
      if (f === 0) continue
      for (let c = k + 1; c < m; c++) s[r * m + c]! -= f * s[k * m + c]!
      rhs[r]! -= f * rhs[k]!
    }
  }
  for (let k = m - 1; k >= 0; k--) {
    let value = rhs[k]!
    for (let c = k + 1; c < m; c++) value -= s[k * m + c]! * rhs[c]!
    rhs[k] = value / s[k * m + k]!
  }
}

const away = (divisor: number, scale: number): number => {
  const least = 1e-16 * scale + 1e-20
  return Math.abs(divisor) < least ? least : divisor
}
