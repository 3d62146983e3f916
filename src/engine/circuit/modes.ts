import { blockSizes, type Group, invariantColumns, refineGroups, scaleColumns } from './blocks.ts'
import { type Chain, makeChain } from './chain.ts'
import { inverse } from './dense.ts'
import { realSchur } from './schur.ts'
import { eigenvalues, nearDegree, type Root, rootsOf, type Vector, vectorOf } from './spectrum.ts'

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
  let { groups, basis } = basisOf(t, q, n, sizes, ownRows(sizes))
  const merged = merge(groups, basis, n, closeness)
  if (merged.length < groups.length || merged.some(({ whole }) => whole)) {
    const again = basisOf(
      t,
      q,
      n,
      sizes,
      merged.map(({ rows }) => rows),
    )
    groups = again.groups
    basis = again.basis
  }
  const left = inverse(basis, n)
  if (left === undefined) return undefined
  const roots = groups.map(({ matrix, rows }) => rootsOf(matrix, rows.length))
  refineGroups(a, basis, left, n, groups, (i, j) => {
    for (const p of roots[i]!) for (const r of roots[j]!) if (nearDegree(p, r, 0) < 1e-6) return false
    return true
  })
  scaleColumns(basis, n, groups)
  const w = inverse(basis, n)
  return w === undefined
    ? undefined
    : assemble(
        groups,
        merged.map(({ whole }) => whole),
        basis,
        w,
        n,
      )
}

/** Rows of every diagonal block. */
function ownRows(sizes: Int32Array): number[][] {
  const out: number[][] = []
  sizes.forEach((size, r) => {
    if (size > 0) out.push(size === 2 ? [r, r + 1] : [r])
  })
  return out
}

function basisOf(
  t: Float64Array,
  q: Float64Array,
  n: number,
  sizes: Int32Array,
  sets: readonly (readonly number[])[],
): { groups: Group[]; basis: Float64Array } {
  const basis = new Float64Array(n * n)
  const groups: Group[] = []
  let first = 0
  for (const rows of sets) {
    const { y, matrix } = invariantColumns(t, n, sizes, rows)
    const width = rows.length
    const last = rows[width - 1]!
    for (let i = 0; i < n; i++)
      for (let r = 0; r <= last; r++) {
        const f = q[i * n + r]!
        for (let c = 0; c < width; c++) basis[i * n + first + c]! += f * y[r * width + c]!
      }
    groups.push({ rows, first, matrix })
    first += width
  }
  scaleColumns(basis, n, groups)
  return { groups, basis }
}

/**
 * Unite blocks whose eigenvalues differ by less than `gap` and whose vectors overlap. `whole` marks those which
 * stay a chain: united ones, and a pair close to its own conjugate.
 */
function merge(
  groups: readonly Group[],
  basis: Float64Array,
  n: number,
  { gap, idle_per_s }: { readonly gap: number; readonly idle_per_s: number },
): { rows: number[]; whole: boolean }[] {
  const roots = groups.map(({ matrix, rows }) => rootsOf(matrix, rows.length)[0]!)
  const vectors: (Vector | undefined)[] = groups.map(() => undefined)
  const vector = (i: number): Vector => {
    vectors[i] ??= vectorOf(groups[i]!, roots[i]!, basis, n)
    return vectors[i]
  }
  const near = (i: number, j: number, side: 1 | -1): boolean => {
    const p = roots[i]!
    const r: Root = { re: roots[j]!.re, im: side * roots[j]!.im }
    return nearDegree(p, r, idle_per_s) < gap && overlap(vector(i), vector(j), side) > 0.01
  }
  const leader = groups.map((_, i) => i)
  const lead = (i: number): number => (leader[i] === i ? i : lead(leader[i]!))
  const whole = groups.map((_, i) => roots[i]!.im !== 0 && near(i, i, -1))
  for (let i = 0; i < groups.length; i++)
    for (let j = 0; j < i; j++)
      if (near(i, j, 1) || (roots[j]!.im !== 0 && near(i, j, -1))) {
        const to = lead(j)
        leader[lead(i)] = to
        whole[to] = true
      }
  const out: { rows: number[]; whole: boolean }[] = []
  groups.forEach((_, i) => {
    if (leader[i] !== i) return
    const members = groups.filter((_, j) => lead(j) === i)
    const united = groups.some((_, j) => lead(j) === i && whole[j])
    out.push({ rows: members.flatMap(({ rows }) => rows).sort((x, y) => x - y), whole: united })
  })
  return out
}

/** |<v, u>| of two unit vectors, the second conjugated for side -1. */
function overlap(v: Vector, u: Vector, side: 1 | -1): number {
  let re = 0
  let im = 0
  for (let i = 0; i < v.re.length; i++) {
    const uIm = side * u.im[i]!
    re += v.re[i]! * u.re[i]! + v.im[i]! * uIm
    im += v.re[i]! * uIm - v.im[i]! * u.re[i]!
  }
  const value = Math.hypot(re, im)
  return Number.isNaN(value) ? 1 : value
}

/** Modes from the real basis and its inverse. */
function assemble(
  groups: readonly Group[],
  whole: readonly boolean[],
  basis: Float64Array,
  w: Float64Array,
  n: number,
): Modes | undefined {
  const all = groups.map((group, g) => {
    const roots = rootsOf(group.matrix, group.rows.length)
    const chained = whole[g]! || (group.rows.length === 2 && roots[0]!.im === 0)
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
      const v = vectorOf(group, root, basis, n)
      out.sigma[k] = root.re
      out.omega[k] = root.im
      for (let i = 0; i < n; i++) {
        out.vRe[i * count + k] = v.re[i]!
        out.vIm[i * count + k] = v.im[i]!
      }
      for (let i = 0; i < n; i++) {
        if (rows.length === 1) {
          out.wRe[k * n + i] = w[first * n + i]!
          continue
        }
        // x = Re(v z) with v = V e: the two real coordinates are Re(e z)
        const one = w[first * n + i]!
        const two = w[(first + 1) * n + i]!
        const det = v.eRe[1]! * v.eIm[0]! - v.eRe[0]! * v.eIm[1]!
        out.wRe[k * n + i] = (v.eIm[0]! * two - v.eIm[1]! * one) / det
        out.wIm[k * n + i] = (v.eRe[0]! * two - v.eRe[1]! * one) / det
      }
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
