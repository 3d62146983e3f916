import { SylvesterSolver } from './sylvester.ts'

/** Diagonal blocks of a matrix in real Schur form that are kept together as one invariant subspace. */
export interface Group {
  /** Rows of the Schur form, ascending; both rows of a 2 x 2 block. */
  readonly rows: readonly number[]
  /** First of its columns in the basis. */
  first: number
  /** Matrix of the group in its columns, row-major: A V = V M. */
  matrix: Float64Array
}

const sylvester = new SylvesterSolver()

/** Sizes of the diagonal blocks by first row: 1, 2, or 0 for the second row of a pair. */
export function blockSizes(t: Float64Array, n: number): Int32Array {
  const sizes = new Int32Array(n)
  for (let r = 0; r < n; r++) {
    const paired = r + 1 < n && t[(r + 1) * n + r] !== 0
    sizes[r] = paired ? 2 : 1
    if (paired) r++
  }
  return sizes
}

/**
 * Columns Y (n x size, unit rows at the group's own) and matrix M with T Y = Y M for quasi-triangular T, by
 * substitution upwards from block to block.
 */
export function invariantColumns(
  t: Float64Array,
  n: number,
  sizes: Int32Array,
  rows: readonly number[],
): { y: Float64Array; matrix: Float64Array } {
  const q = rows.length
  const y = new Float64Array(n * q)
  const matrix = new Float64Array(q * q)
  const rhs = new Float64Array(4)
  const place = new Int32Array(n).fill(-1)
  rows.forEach((row, i) => {
    place[row] = i
  })
  for (let c = 0; c < q; c++) {
    const column = rows[c]!
    const width = sizes[column]!
    for (let i = 0; i < width; i++) {
      y[(column + i) * q + c + i] = 1
      for (let j = 0; j < width; j++) matrix[(c + i) * q + c + j] = t[(column + i) * n + column + j]!
    }
    for (let r = column - 1; r >= 0; r--) {
      if (sizes[r] === 0) r--
      const height = sizes[r]!
      for (let i = 0; i < height; i++)
        for (let j = 0; j < width; j++) {
          let value = 0
          for (let k = r + height; k < column + width; k++) value -= t[(r + i) * n + k]! * y[k * q + c + j]!
          rhs[i * width + j] = value
        }
      const own = place[r]!
      if (own >= 0) {
        for (let i = 0; i < height; i++)
          for (let j = 0; j < width; j++) matrix[(own + i) * q + c + j] = -rhs[i * width + j]!
        continue
      }
      for (let i = 0; i < height; i++)
        for (let j = 0; j < width; j++)
          for (let l = 0; l < c; l++) rhs[i * width + j]! += y[(r + i) * q + l]! * matrix[l * q + c + j]!
      sylvester.solve(t, r * n + r, n, height, matrix, c * q + c, q, width, rhs)
      for (let i = 0; i < height; i++)
        for (let j = 0; j < width; j++) y[(r + i) * q + c + j] = rhs[i * width + j]!
    }
    c += width - 1
  }
  return { y, matrix }
}

/** Give every column of the groups unit length. */
export function scaleColumns(v: Float64Array, n: number, groups: readonly Group[]): void {
  for (const { first, rows, matrix } of groups) {
    const q = rows.length
    for (let c = 0; c < q; c++) {
      let size = 0
      for (let i = 0; i < n; i++) size += v[i * n + first + c]! ** 2
      const length = Math.sqrt(size)
      for (let i = 0; i < n; i++) v[i * n + first + c]! /= length
      for (let j = 0; j < q; j++) {
        matrix[c * q + j]! *= length
        matrix[j * q + c]! /= length
      }
    }
  }
}

/**
 * One step of first-order perturbation with the residual R = A V - V M: each group's M gains W R, its columns
 * lean towards those of other groups by Y from M_i Y - Y M_j = -W_i R_j. It recovers slow modes beside parasitics
 * many decades faster. Groups nearer than 1e-6 are left as they are.
 */
export function refineGroups(
  a: Float64Array,
  v: Float64Array,
  w: Float64Array,
  n: number,
  groups: readonly Group[],
  apart: (i: number, j: number) => boolean,
): void {
  const residual = new Float64Array(n * n)
  for (let i = 0; i < n; i++)
    for (let k = 0; k < n; k++) {
      const f = a[i * n + k]!
      if (f !== 0) for (let j = 0; j < n; j++) residual[i * n + j]! += f * v[k * n + j]!
    }
  for (const { first, rows, matrix } of groups) {
    const q = rows.length
    for (let i = 0; i < n; i++)
      for (let k = 0; k < q; k++) {
        const f = v[i * n + first + k]!
        for (let j = 0; j < q; j++) residual[i * n + first + j]! -= f * matrix[k * q + j]!
      }
  }
  const e = new Float64Array(n * n)
  for (let i = 0; i < n; i++)
    for (let k = 0; k < n; k++) {
      const f = w[i * n + k]!
      if (f !== 0) for (let j = 0; j < n; j++) e[i * n + j]! += f * residual[k * n + j]!
    }
  const old = v.slice()
  const moved = groups.map(({ matrix }) => matrix.slice())
  groups.forEach((to, j) => {
    const q = to.rows.length
    groups.forEach((from, i) => {
      const p = from.rows.length
      if (i === j) {
        for (let r = 0; r < q; r++)
          for (let c = 0; c < q; c++) moved[j]![r * q + c]! += e[(to.first + r) * n + to.first + c]!
        return
      }
      if (!apart(i, j)) return
      const lean = new Float64Array(p * q)
      for (let r = 0; r < p; r++)
        for (let c = 0; c < q; c++) lean[r * q + c] = -e[(from.first + r) * n + to.first + c]!
      sylvester.solve(from.matrix, 0, p, p, to.matrix, 0, q, q, lean)
      for (const value of lean) if (!(Math.abs(value) < 0.1)) return
      for (let s = 0; s < n; s++)
        for (let r = 0; r < p; r++) {
          const f = old[s * n + from.first + r]!
          for (let c = 0; c < q; c++) v[s * n + to.first + c]! += f * lean[r * q + c]!
        }
    })
  })
  groups.forEach((group, j) => {
    group.matrix = moved[j]!
  })
}
