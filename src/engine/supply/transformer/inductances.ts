import { inductanceMatrix_H, leakage_H, type StackField } from '../../magnetics/field/index.ts'

/** Inductances of the windings as wound, from the field. Matrices row by row in the order of `windings`. */
export interface Inductances {
  readonly windings: readonly string[]
  readonly matrix_H: readonly number[]
  /** Coupling factor of each pair: M / sqrt(Li Lj). */
  readonly coupling: readonly number[]
  /** Seen at the row's winding with the column's shorted and the rest open; 0 on the diagonal. */
  readonly leakage_H: readonly number[]
  /** Seen at the primary with every other winding shorted; below the pair's, since the bias winding helps. */
  readonly leakageAllShorted_H: number
}

/** Inductance and coupling of every pair of windings; null when the core's permeance is below that of the window alone. */
export function inductancesOf(field: StackField, factor_H: number): Inductances | null {
  const matrix = inductanceMatrix_H(field, factor_H)
  if (matrix === undefined) return null
  const { windings } = field.layout
  const n = windings.length
  const pairs = Array.from({ length: n * n }, (_, at) => [Math.floor(at / n), at % n] as const)
  return {
    windings,
    matrix_H: [...matrix],
    coupling: pairs.map(([i, j]) => matrix[i * n + j]! / Math.sqrt(matrix[i * n + i]! * matrix[j * n + j]!)),
    leakage_H: pairs.map(([i, j]) => (i === j ? 0 : (leakage_H(field, windings[i]!, windings[j]!) ?? 0))),
    leakageAllShorted_H: withOthersShorted(matrix, n, Math.max(0, windings.indexOf('primary'))),
  }
}

/**
 * Inductance at one winding with all others shorted: the Schur complement L_pp − L_po L_oo⁻¹ L_op, by elimination of
 * one winding after the other.
 */
export function withOthersShorted(matrix_H: ArrayLike<number>, n: number, winding: number): number {
  const left = Float64Array.from(matrix_H)
  for (let k = 0; k < n; k++) {
    if (k === winding) continue
    const pivot = left[k * n + k]!
    for (let i = 0; i < n; i++) {
      if (i === k) continue
      const part = left[i * n + k]! / pivot
      for (let j = 0; j < n; j++) if (j !== k) left[i * n + j]! -= part * left[k * n + j]!
    }
  }
  return left[winding * n + winding]!
}
