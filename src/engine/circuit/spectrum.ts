import type { Group } from './blocks.ts'
import { realSchur } from './schur.ts'

/** An eigenvalue. */
export interface Root {
  readonly re: number
  readonly im: number
}

/** A unit vector of the state space. */
export interface Vector {
  readonly re: Float64Array
  readonly im: Float64Array
}

/** Eigenvalues of a quasi-triangular matrix by its diagonal blocks; of a pair the upper one first. */
export function rootsOf(t: Float64Array, n: number): Root[] {
  const out: Root[] = []
  for (let j = 0; j < n; j++) {
    const sub = j + 1 < n ? t[(j + 1) * n + j]! : 0
    if (sub === 0) {
      out.push({ re: t[j * n + j]!, im: 0 })
      continue
    }
    const half = (t[j * n + j]! - t[(j + 1) * n + j + 1]!) / 2
    const im = Math.sqrt(Math.max(0, -(half * half + t[j * n + j + 1]! * sub)))
    const re = t[(j + 1) * n + j + 1]! + half
    out.push({ re, im }, { re, im: -im })
    j++
  }
  return out
}

/** As Math.hypot for numbers whose squares are finite, but several times faster. */
const magnitude = (re: number, im: number): number => Math.sqrt(re * re + im * im)

/**
 * Is any of some eigenvalues nearer to another of the others than `gap`, against the larger of both or against
 * `idle_per_s` when they are slower?
 */
export function anyNearer(
  some: readonly Root[],
  others: readonly Root[],
  idle_per_s: number,
  gap: number,
): boolean {
  for (const p of some)
    for (const q of others) {
      const size = Math.max(magnitude(p.re, p.im), magnitude(q.re, q.im), idle_per_s, 1e-100)
      if (p !== q && magnitude(p.re - q.re, p.im - q.im) < gap * size) return true
    }
  return false
}

/** Eigenvector [re, im, re, im] of a 2 x 2 matrix to one of its complex eigenvalues, from the larger coupling. */
export function pairVector(matrix: Float64Array, root: Root): [number, number, number, number] {
  const [p, b, c, d] = matrix as unknown as [number, number, number, number]
  return Math.abs(b) > Math.abs(c) ? [b, 0, (d - p) / 2, root.im] : [(p - d) / 2, root.im, c, 0]
}

/** Vectors that span a group: its columns, or the eigenvector to `root` of a pair of its own. */
export function vectorsOf(
  { first, rows, whole, matrix }: Group,
  root: Root,
  basis: Float64Array,
  n: number,
): Vector[] {
  const column = (c: number) => Float64Array.from({ length: n }, (_, i) => basis[i * n + first + c]!)
  if (whole || rows.length === 1) return rows.map((_, c) => ({ re: column(c), im: new Float64Array(n) }))
  const [oneRe, oneIm, twoRe, twoIm] = pairVector(matrix, root)
  const one = column(0)
  const two = column(1)
  const re = one.map((value, i) => value * oneRe + two[i]! * twoRe)
  const im = one.map((value, i) => value * oneIm + two[i]! * twoIm)
  const length = Math.sqrt(re.reduce((sum, value, i) => sum + value * value + im[i]! ** 2, 0))
  return [{ re: re.map((value) => value / length), im: im.map((value) => value / length) }]
}

/** Eigenvalues of a small real matrix, largest magnitude first; both of every conjugate pair. */
export function eigenvalues(a: Float64Array, n: number): Root[] | undefined {
  const t = a.slice()
  if (realSchur(t, n) === undefined) return undefined
  return rootsOf(t, n).sort((p, q) => Math.hypot(q.re, q.im) - Math.hypot(p.re, p.im))
}
