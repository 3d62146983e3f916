import { SylvesterSolver } from './sylvester.ts'

/** Diagonal blocks of a matrix in real Schur form that are kept together as one invariant subspace. */
export interface Group {
  /** Rows of the Schur form, ascending; both rows of a 2 x 2 block. */
  readonly rows: readonly number[]
  /** Stays together as a chain: several blocks, or a pair close to its own conjugate. */
  readonly whole: boolean
  /** First of its columns in the basis. */
  first: number
  /** Matrix of the group in its columns, row-major: A V = V M. */
  matrix: Float64Array
}

const sylvester = new SylvesterSolver()
const cell = new Float64Array(4)

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
  const rhs = cell
  const isOnly = q === sizes[rows[0]!]
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
      if (isOnly && width === 1 && height === 1) {
        let value = 0
        for (let k = r + 1; k <= column; k++) value -= t[r * n + k]! * y[k]!
        cell[0] = value
        sylvester.solve(t, r * n + r, n, 1, matrix, 0, 1, 1, cell)
        y[r] = cell[0]!
        continue
      }
      for (let i = 0; i < height; i++)
        for (let j = 0; j < width; j++) {
          let value = 0
          for (let k = r + height; k < column + width; k++) value -= t[(r + i) * n + k]! * y[k * q + c + j]!
          rhs[i * width + j] = value
        }
      const own = isOnly ? -1 : rows.indexOf(r)
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

/** Make the columns of every group orthonormal among themselves: V = U R, M becomes R M R^-1. */
export function orthonormalize(v: Float64Array, n: number, groups: readonly Group[]): void {
  for (const { first, rows, matrix } of groups) {
    const q = rows.length
    if (q === 1) {
      const length = lengthOf(v, n, first)
      for (let i = 0; i < n; i++) v[i * n + first]! /= length
      continue
    }
    const r = new Float64Array(q * q)
    for (let c = 0; c < q; c++) {
      const before = lengthOf(v, n, first + c)
      let kept = before
      // once more when much was lost
      for (let pass = 0; pass < 2 && (pass === 0 || kept < 0.5 * before); pass++) {
        for (let l = 0; l < c; l++) {
          let dot = 0
          for (let i = 0; i < n; i++) dot += v[i * n + first + l]! * v[i * n + first + c]!
          r[l * q + c]! += dot
          for (let i = 0; i < n; i++) v[i * n + first + c]! -= dot * v[i * n + first + l]!
        }
        kept = lengthOf(v, n, first + c)
      }
      r[c * q + c] = kept
      for (let i = 0; i < n; i++) v[i * n + first + c]! /= kept
    }
    for (let i = 0; i < q; i++)
      for (let j = 0; j < q; j++) {
        let value = 0
        for (let k = i; k < q; k++) value += r[i * q + k]! * matrix[k * q + j]!
        matrix[i * q + j] = value
      }
    for (let i = 0; i < q; i++)
      for (let j = 0; j < q; j++) {
        let value = matrix[i * q + j]!
        for (let k = 0; k < j; k++) value -= matrix[i * q + k]! * r[k * q + j]!
        matrix[i * q + j] = value / r[j * q + j]!
      }
  }
}

function lengthOf(v: Float64Array, n: number, column: number): number {
  let size = 0
  for (let i = 0; i < n; i++) size += v[i * n + column]! ** 2
  return Math.sqrt(size)
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
  const widest = groups.reduce((most, { rows }) => Math.max(most, rows.length), 1)
  const lean = new Float64Array(widest * widest)
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
      for (let r = 0; r < p; r++)
        for (let c = 0; c < q; c++) lean[r * q + c] = -e[(from.first + r) * n + to.first + c]!
      sylvester.solve(from.matrix, 0, p, p, to.matrix, 0, q, q, lean)
      for (let k = 0; k < p * q; k++) if (!(Math.abs(lean[k]!) < 0.1)) return
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
