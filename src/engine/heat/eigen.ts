/**
 * Eigenvalues and eigenvectors of a small symmetric matrix by cyclic Jacobi rotations. Row-major; eigenvector k is
 * column k of `vectors`. Source: Golub and Van Loan, Matrix Computations, sect. 8.5 (from memory).
 */
export function symmetricEigen(
  matrix: Float64Array,
  n: number,
): { values: Float64Array; vectors: Float64Array } {
  const a = Float64Array.from(matrix)
  const v = new Float64Array(n * n)
  for (let k = 0; k < n; k++) v[k * n + k] = 1
  for (let sweep = 0; sweep < 60; sweep++) {
    let off = 0
    let all = 0
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const square = a[i * n + j]! ** 2
        all += square
        if (i !== j) off += square
      }
    if (off <= 1e-28 * all) break
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) rotate(a, v, n, p, q)
  }
  return { values: Float64Array.from({ length: n }, (_, k) => a[k * n + k]!), vectors: v }
}

function rotate(a: Float64Array, v: Float64Array, n: number, p: number, q: number): void {
  const apq = a[p * n + q]!
  if (apq === 0) return
  const theta = (a[q * n + q]! - a[p * n + p]!) / (2 * apq)
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(theta, 1))
  const c = 1 / Math.hypot(t, 1)
  const s = t * c
  for (let k = 0; k < n; k++) {
    const kp = a[k * n + p]!
    const kq = a[k * n + q]!
    a[k * n + p] = c * kp - s * kq
    a[k * n + q] = s * kp + c * kq
  }
  for (let k = 0; k < n; k++) {
    const pk = a[p * n + k]!
    const qk = a[q * n + k]!
    a[p * n + k] = c * pk - s * qk
    a[q * n + k] = s * pk + c * qk
  }
  for (let k = 0; k < n; k++) {
    const kp = v[k * n + p]!
    const kq = v[k * n + q]!
    v[k * n + p] = c * kp - s * kq
    v[k * n + q] = s * kp + c * kq
  }
}
