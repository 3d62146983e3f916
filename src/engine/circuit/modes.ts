import { blockSizes, type Group, invariantColumns, orthonormalize, refineGroups } from './blocks.ts'
import { type Chain, makeChain } from './chain.ts'
import { inverse } from './dense.ts'
import { realSchur } from './schur.ts'
import { anyNearer, eigenvalues, pairVector, rootsOf, type Vector, vectorsOf } from './spectrum.ts'

/**
 * Modes of x' = A x: one entry a real eigenvalue or conjugate pair (omega > 0), then those of chains.
 * `x = Re(sum_k v_k z_k)`, `z_k = w_k x`, `z_k' = (sigma_k + j omega_k) z_k`; in a chain all is real and
 * `z' = T z` couples its modes.
 */
export interface Modes {
  readonly count: number
  /** Modes before the first chain. */
  readonly singles: number
  readonly chains: readonly Chain[]
  readonly sigma: Float64Array
  readonly omega: Float64Array
  /** Eigenvectors or basis vectors, n x count. */
  readonly vRe: Float64Array
  readonly vIm: Float64Array
  /** Left vectors, count x n. */
  readonly wRe: Float64Array
  readonly wIm: Float64Array
  /** Largest |v||w|: near a defective matrix it is large unless chains hold the close eigenvalues together. */
  readonly condition: number
}

/** How close eigenvalues may be before they share a chain, tried in turn until the modes are well conditioned. */
const closenesses = [
  { gap: 3e-3, idle_per_s: 1 },
  { gap: 0.1, idle_per_s: 100 },
  { gap: 0.5, idle_per_s: 1e4 },
]
const goodCondition = 1e3

/** Modes of a small real matrix (row-major n x n), or undefined when they cannot be found. */
export function findModes(a: Float64Array, n: number): Modes | undefined {
  const t = a.slice()
  const q = realSchur(t, n)
  if (q === undefined) return undefined
  let best: Modes | undefined
  for (const closeness of closenesses) {
    const modes = withCloseness(a, t, q, n, closeness)
    if (modes === undefined) continue
    if (best === undefined || modes.condition < best.condition) best = modes
    if (best.condition < goodCondition) break
  }
  return best
}

function withCloseness(
  a: Float64Array,
  t: Float64Array,
  q: Float64Array,
  n: number,
  closeness: { readonly gap: number; readonly idle_per_s: number },
): Modes | undefined {
  const sizes = blockSizes(t, n)
  let found = basisOf(t, q, n, sizes, ownRows(sizes))
  // what a chain has taken in may bring it near others
  for (let united = merge(found, n, closeness); united !== undefined; united = merge(found, n, closeness))
    found = basisOf(t, q, n, sizes, united)
  const { groups, basis } = found
  const left = inverse(basis, n)
  if (left === undefined) return undefined
  const roots = groups.map(({ matrix, rows }) => rootsOf(matrix, rows.length))
  refineGroups(a, basis, left, n, groups, (i, j) => !anyNearer(roots[i]!, roots[j]!, 0, 1e-6))
  orthonormalize(basis, n, groups)
  const w = inverse(basis, n)
  return w === undefined ? undefined : assemble(groups, basis, w, n)
}

type RowSet = Pick<Group, 'rows' | 'whole'>

/** Rows of every diagonal block. */
function ownRows(sizes: Int32Array): RowSet[] {
  const out: RowSet[] = []
  sizes.forEach((size, r) => {
    if (size > 0) out.push({ rows: size === 2 ? [r, r + 1] : [r], whole: false })
  })
  return out
}

function basisOf(
  t: Float64Array,
  q: Float64Array,
  n: number,
  sizes: Int32Array,
  sets: readonly RowSet[],
): { groups: Group[]; basis: Float64Array } {
  const basis = new Float64Array(n * n)
  const groups: Group[] = []
  let first = 0
  for (const { rows, whole } of sets) {
    const { y, matrix } = invariantColumns(t, n, sizes, rows)
    const width = rows.length
    const last = rows[width - 1]!
    for (let i = 0; i < n; i++)
      for (let r = 0; r <= last; r++) {
        const f = q[i * n + r]!
        for (let c = 0; c < width; c++) basis[i * n + first + c]! += f * y[r * width + c]!
      }
    groups.push({ rows, whole, first, matrix })
    first += width
  }
  orthonormalize(basis, n, groups)
  return { groups, basis }
}

/**
 * Unite groups whose eigenvalues differ by less than `gap` and whose vectors overlap, and mark a pair close to its
 * own conjugate. Undefined when all may stay as they are.
 */
function merge(
  { groups, basis }: { readonly groups: readonly Group[]; readonly basis: Float64Array },
  n: number,
  { gap, idle_per_s }: { readonly gap: number; readonly idle_per_s: number },
): RowSet[] | undefined {
  const roots = groups.map(({ matrix, rows }) => rootsOf(matrix, rows.length))
  const vectors: Vector[][] = []
  const near = (i: number, j: number): boolean => {
    // both of a pair are among its roots, so that nearness to a conjugate counts
    if (!anyNearer(roots[i]!, roots[j]!, idle_per_s, gap)) return false
    for (const k of [i, j]) vectors[k] ??= vectorsOf(groups[k]!, roots[k]![0]!, basis, n)
    return vectors[i]!.some((v) => vectors[j]!.some((u) => overlap(v, u) > 0.01))
  }
  const leader = groups.map((_, i) => i)
  const whole = groups.map((group, i) => group.whole || (roots[i]!.length === 2 && near(i, i)))
  let changed = groups.some((group, i) => whole[i] !== group.whole)
  for (let i = 0; i < groups.length; i++)
    for (let j = 0; j < i; j++) {
      if (leader[i] === leader[j] || !near(i, j)) continue
      const from = leader[i]!
      const to = leader[j]!
      leader.forEach((lead, k) => {
        if (lead === from) leader[k] = to
      })
      whole[to] = true
      changed = true
    }
  if (!changed) return undefined
  return groups.flatMap((_, i) => {
    if (leader[i] !== i) return []
    const rows = groups.flatMap((group, j) => (leader[j] === i ? group.rows : []))
    return [{ rows: rows.sort((x, y) => x - y), whole: whole[i]! }]
  })
}

/** |v^H u| or |v'u| of unit vectors, whichever is larger; of a vector with itself the second only. */
function overlap(v: Vector, u: Vector): number {
  let reRe = 0
  let imIm = 0
  let imRe = 0
  let reIm = 0
  for (let i = 0; i < v.re.length; i++) {
    reRe += v.re[i]! * u.re[i]!
    imIm += v.im[i]! * u.im[i]!
    imRe += v.im[i]! * u.re[i]!
    reIm += v.re[i]! * u.im[i]!
  }
  const plain = Math.hypot(reRe - imIm, imRe + reIm)
  const value = v === u ? plain : Math.max(plain, Math.hypot(reRe + imIm, reIm - imRe))
  return Number.isNaN(value) ? 1 : value
}

/** Modes from the real basis and its inverse. */
function assemble(
  groups: readonly Group[],
  basis: Float64Array,
  w: Float64Array,
  n: number,
): Modes | undefined {
  const all = groups.map((group) => {
    const roots = rootsOf(group.matrix, group.rows.length)
    const chained = group.whole || (group.rows.length === 2 && roots[0]!.im === 0)
    return {
      group,
      roots: chained ? (eigenvalues(group.matrix, group.rows.length) ?? roots) : roots,
      chained,
    }
  })
  const ordered = [...all.filter(({ chained }) => !chained), ...all.filter(({ chained }) => chained)]
  const count = ordered.reduce((total, { group, chained }) => total + (chained ? group.rows.length : 1), 0)
  const singles = ordered.filter(({ chained }) => !chained).length
  const out = {
    sigma: new Float64Array(count),
    omega: new Float64Array(count),
    vRe: new Float64Array(n * count),
    vIm: new Float64Array(n * count),
    wRe: new Float64Array(count * n),
    wIm: new Float64Array(count * n),
  }
  const chains: Chain[] = []
  let condition = 0
  let k = 0
  for (const { group, roots, chained } of ordered) {
    const { first, matrix, rows } = group
    const width = chained ? rows.length : 1
    if (chained) {
      chains.push(makeChain(k, width, matrix, roots))
      for (let c = 0; c < width; c++) {
        out.sigma[k + c] = roots[c]!.re
        out.omega[k + c] = Math.abs(roots[c]!.im)
        for (let i = 0; i < n; i++) {
          out.vRe[i * count + k + c] = basis[i * n + first + c]!
          out.wRe[(k + c) * n + i] = w[(first + c) * n + i]!
        }
      }
    } else {
      const root = roots[0]!
      out.sigma[k] = root.re
      out.omega[k] = root.im
      if (rows.length === 1) copySingle(out, k, count, basis, w, first, n)
      else copyPair(out, k, count, basis, w, first, n, pairVector(matrix, root))
    }
    for (let c = 0; c < width; c++) {
      let size = 0
      for (let i = 0; i < n; i++) size += out.wRe[(k + c) * n + i]! ** 2 + out.wIm[(k + c) * n + i]! ** 2
      condition = Math.max(condition, Math.sqrt(size))
    }
    k += width
  }
  if (!Number.isFinite(condition)) return undefined
  return { count, singles, chains, ...out, condition }
}

type Vectors = Pick<Modes, 'vRe' | 'vIm' | 'wRe' | 'wIm'>

function copySingle(
  out: Vectors,
  k: number,
  count: number,
  basis: Float64Array,
  w: Float64Array,
  first: number,
  n: number,
): void {
  for (let i = 0; i < n; i++) {
    out.vRe[i * count + k] = basis[i * n + first]!
    out.wRe[k * n + i] = w[first * n + i]!
  }
}

/** v = V e of unit length, w such that the two real coordinates are Re(e z). */
function copyPair(
  out: Vectors,
  k: number,
  count: number,
  basis: Float64Array,
  w: Float64Array,
  first: number,
  n: number,
  [oneRe, oneIm, twoRe, twoIm]: readonly [number, number, number, number],
): void {
  let size = 0
  for (let i = 0; i < n; i++) {
    const one = basis[i * n + first]!
    const two = basis[i * n + first + 1]!
    const re = one * oneRe + two * twoRe
    const im = one * oneIm + two * twoIm
    out.vRe[i * count + k] = re
    out.vIm[i * count + k] = im
    size += re * re + im * im
  }
  const length = Math.sqrt(size)
  const scale = length / (twoRe * oneIm - oneRe * twoIm)
  for (let i = 0; i < n; i++) {
    out.vRe[i * count + k]! /= length
    out.vIm[i * count + k]! /= length
    const one = w[first * n + i]!
    const two = w[(first + 1) * n + i]!
    out.wRe[k * n + i] = (oneIm * two - twoIm * one) * scale
    out.wIm[k * n + i] = (oneRe * two - twoRe * one) * scale
  }
}
