/**
 * Least squares by orthogonalisation (modified Gram-Schmidt) and back substitution. `rows` are the equations; the
 * columns must be independent.
 */
export function leastSquares(rows: readonly (readonly number[])[], right: readonly number[]): number[] {
  const basis: number[][] = []
  const triangle: number[][] = []
  const columns = rows[0]?.length ?? 0
  for (let c = 0; c < columns; c++) {
    const column = rows.map((row) => row[c] ?? 0)
    const above = basis.map((b) => {
      const along = dot(column, b)
      subtract(column, b, along)
      return along
    })
    const length = norm(column)
    basis.push(column.map((x) => x / length))
    triangle.push([...above, length])
  }
  const y = basis.map((b) => dot(right, b))
  const x = y.map(() => 0)
  for (let i = y.length - 1; i >= 0; i--) {
    let sum = y[i] ?? 0
    for (let j = i + 1; j < y.length; j++) sum -= (triangle[j]?.[i] ?? 0) * (x[j] ?? 0)
    x[i] = sum / (triangle[i]?.[i] ?? 1)
  }
  return x
}

export const dot = (a: readonly number[], b: readonly number[]) =>
  a.reduce((sum, x, i) => sum + x * (b[i] ?? 0), 0)

export const norm = (a: readonly number[]) => Math.sqrt(dot(a, a))

/** Takes `along` times b from a, in place. */
export const subtract = (a: number[], b: readonly number[], along: number) => {
  for (let i = 0; i < a.length; i++) a[i] = (a[i] ?? 0) - along * (b[i] ?? 0)
}
