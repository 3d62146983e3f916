import type { Group } from './blocks.ts'
import { realSchur } from './schur.ts'

/** An eigenvalue. */
export interface Root {
  readonly re: number
  readonly im: number
}

/** Unit eigenvector of a group of one block: v = V e, with its coordinates e in the columns of the group. */
export interface Vector {
  readonly re: Float64Array
  readonly im: Float64Array
  readonly eRe: Float64Array
  readonly eIm: Float64Array
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

/** Distance of two eigenvalues against the larger, or against `idle_per_s` when both are slower. */
export function nearDegree(p: Root, q: Root, idle_per_s: number): number {
  const size = Math.max(magnitude(p.re, p.im), magnitude(q.re, q.im), idle_per_s, 1e-100)
  return magnitude(p.re - q.re, p.im - q.im) / size
}

/** Eigenvector to `root` of a group of one block, in the coordinates of the basis. */
export function vectorOf(group: Group, root: Root, basis: Float64Array, n: number): Vector {
  const { first, matrix, rows } = group
  const re = new Float64Array(n)
  const im = new Float64Array(n)
  const eRe = new Float64Array([1, 0])
  const eIm = new Float64Array(2)
  if (rows.length === 2) {
    // (M - lambda) e = 0 from the row with the larger coupling
    const [p, b, c, d] = matrix as unknown as [number, number, number, number]
    if (Math.abs(b) > Math.abs(c)) {
      eRe[0] = b
      eRe[1] = (d - p) / 2
      eIm[1] = root.im
    } else {
      eRe[0] = (p - d) / 2
      eIm[0] = root.im
      eRe[1] = c
    }
  }
  let size = 0
  for (let i = 0; i < n; i++) {
    const one = basis[i * n + first]!
    const two = rows.length === 2 ? basis[i * n + first + 1]! : 0
    re[i] = one * eRe[0]! + two * eRe[1]!
    im[i] = one * eIm[0]! + two * eIm[1]!
    size += re[i]! ** 2 + im[i]! ** 2
  }
  const length = Math.sqrt(size)
  for (const part of [re, im, eRe, eIm]) for (let i = 0; i < part.length; i++) part[i]! /= length
  return { re, im, eRe, eIm }
}

/** Vectors that span a group: its columns, or the eigenvector to `root` of a group of one block. */
export function vectorsOf(group: Group, root: Root, basis: Float64Array, n: number): Vector[] {
  if (!group.whole) return [vectorOf(group, root, basis, n)]
  return group.rows.map((_, c) => ({
    re: Float64Array.from({ length: n }, (__, i) => basis[i * n + group.first + c]!),
    im: new Float64Array(n),
    eRe: new Float64Array(2),
    eIm: new Float64Array(2),
  }))
}

/** Eigenvalues of a small real matrix, largest magnitude first; both of every conjugate pair. */
export function eigenvalues(a: Float64Array, n: number): Root[] | undefined {
  const t = a.slice()
  if (realSchur(t, n) === undefined) return undefined
  return rootsOf(t, n).sort((p, q) => Math.hypot(q.re, q.im) - Math.hypot(p.re, p.im))
}
