import { inverse } from './dense.ts'
import { realSchur } from './schur.ts'

/**
 * Modes of x' = A x: one entry a real eigenvalue or conjugate pair (omega > 0).
 * `x = Re(sum_k v_k z_k)`, `z_k = w_k x`, `z_k' = (sigma_k + j omega_k) z_k`.
 */
export interface Modes {
  readonly count: number
  readonly sigma: Float64Array
  readonly omega: Float64Array
  /** Eigenvectors, n x count. */
  readonly vRe: Float64Array
  readonly vIm: Float64Array
  /** Left vectors, count x n. */
  readonly wRe: Float64Array
  readonly wIm: Float64Array
  /** Largest eigenvalue condition |v||w|: large near a defective matrix. */
  readonly condition: number
}

/** Modes of a small real matrix (row-major n x n), or undefined when they cannot be found. */
export function findModes(a: Float64Array, n: number): Modes | undefined {
  const t = a.slice()
  const q = realSchur(t, n)
  if (q === undefined) return undefined
  const sigma: number[] = []
  const omega: number[] = []
  const starts: number[] = []
  for (let j = 0; j < n; j++) {
    const sub = j + 1 < n ? t[(j + 1) * n + j]! : 0
    starts.push(j)
    if (sub === 0) {
      sigma.push(t[j * n + j]!)
      omega.push(0)
    } else {
      const half = (t[j * n + j]! - t[(j + 1) * n + j + 1]!) / 2
      const disc = half * half + t[j * n + j + 1]! * sub
      sigma.push(t[(j + 1) * n + j + 1]! + half)
      omega.push(Math.sqrt(Math.max(0, -disc)))
      j++
    }
  }
  const count = sigma.length
  const vRe = new Float64Array(n * count)
  const vIm = new Float64Array(n * count)
  const yRe = new Float64Array(n)
  const yIm = new Float64Array(n)
  for (let k = 0; k < count; k++) {
    triangularVector(t, n, starts[k]!, sigma[k]!, omega[k]!, yRe, yIm)
    for (let i = 0; i < n; i++) {
      let re = 0
      let im = 0
      for (let j = 0; j < n; j++) {
        re += q[i * n + j]! * yRe[j]!
        im += q[i * n + j]! * yIm[j]!
      }
      vRe[i * count + k] = re
      vIm[i * count + k] = im
    }
  }
  const draft = { n, count, sigma: Float64Array.from(sigma), omega: Float64Array.from(omega), vRe, vIm }
  const first = complete(draft)
  if (first === undefined) return undefined
  refine(a, draft, first)
  return complete(draft)
}

/** Eigenvalues of a small real matrix, largest magnitude first; both of every conjugate pair. */
export function eigenvalues(a: Float64Array, n: number): { re: number; im: number }[] | undefined {
  const t = a.slice()
  if (realSchur(t, n) === undefined) return undefined
  const out: { re: number; im: number }[] = []
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
  return out.sort((p, q) => Math.hypot(q.re, q.im) - Math.hypot(p.re, p.im))
}

interface Draft {
  readonly n: number
  readonly count: number
  readonly sigma: Float64Array
  readonly omega: Float64Array
  readonly vRe: Float64Array
  readonly vIm: Float64Array
}

/** Solve (T - lambda) y = 0 for quasi-triangular T, from the block at `start` upwards. */
function triangularVector(
  t: Float64Array,
  n: number,
  start: number,
  sigma: number,
  omega: number,
  yRe: Float64Array,
  yIm: Float64Array,
): void {
  yRe.fill(0)
  yIm.fill(0)
  let last = start
  if (omega > 0 || (start + 1 < n && t[(start + 1) * n + start] !== 0)) {
    last = start + 1
    yRe[start] = t[start * n + last]!
    yRe[last] = sigma - t[start * n + start]!
    yIm[last] = omega
  } else yRe[start] = 1
  for (let i = start - 1; i >= 0; i--) {
    const paired = i > 0 && t[i * n + i - 1] !== 0
    let re = 0
    let im = 0
    for (let c = i + 1; c <= last; c++) {
      re -= t[i * n + c]! * yRe[c]!
      im -= t[i * n + c]! * yIm[c]!
    }
    if (!paired) {
      divide(re, im, t[i * n + i]! - sigma, -omega, Math.abs(sigma) + omega)
      yRe[i] = quotientRe
      yIm[i] = quotientIm
      continue
    }
    const h = i - 1
    let reH = 0
    let imH = 0
    for (let c = i + 1; c <= last; c++) {
      reH -= t[h * n + c]! * yRe[c]!
      imH -= t[h * n + c]! * yIm[c]!
    }
    // [p b; c d] with p = t_hh - lambda, d = t_ii - lambda
    const p = t[h * n + h]! - sigma
    const d = t[i * n + i]! - sigma
    const b = t[h * n + i]!
    const c = t[i * n + h]!
    const detRe = p * d - omega * omega - b * c
    const detIm = -omega * (p + d)
    const size = (Math.abs(sigma) + omega) ** 2
    divide(d * reH + omega * imH - b * re, d * imH - omega * reH - b * im, detRe, detIm, size)
    yRe[h] = quotientRe
    yIm[h] = quotientIm
    divide(p * re + omega * im - c * reH, p * im - omega * re - c * imH, detRe, detIm, size)
    yRe[i] = quotientRe
    yIm[i] = quotientIm
    i--
  }
  let big = 0
  for (let i = 0; i <= last; i++) big = Math.max(big, Math.abs(yRe[i]!), Math.abs(yIm[i]!))
  for (let i = 0; i <= last; i++) {
    yRe[i]! /= big
    yIm[i]! /= big
  }
}

let quotientRe = 0
let quotientIm = 0

/** Complex quotient; a vanishing divisor is replaced by rounding size. */
function divide(re: number, im: number, byRe: number, byIm: number, scale: number): void {
  const least = 1e-16 * scale + 1e-200
  let dRe = byRe
  if (Math.abs(byRe) + Math.abs(byIm) < least) dRe = least
  const size = dRe * dRe + byIm * byIm
  quotientRe = (re * dRe + im * byIm) / size
  quotientIm = (im * dRe - re * byIm) / size
}

/** Left vectors and condition from right vectors. */
function complete(draft: Draft): Modes | undefined {
  const { n, count, sigma, omega, vRe, vIm } = draft
  const packed = new Float64Array(n * n)
  let column = 0
  for (let k = 0; k < count; k++) {
    let size = 0
    for (let i = 0; i < n; i++) size += vRe[i * count + k]! ** 2 + vIm[i * count + k]! ** 2
    const inv = 1 / Math.sqrt(size)
    for (let i = 0; i < n; i++) {
      vRe[i * count + k]! *= inv
      vIm[i * count + k]! *= inv
      packed[i * n + column] = vRe[i * count + k]!
      if (omega[k]! > 0) packed[i * n + column + 1] = vIm[i * count + k]!
    }
    column += omega[k]! > 0 ? 2 : 1
  }
  if (column !== n) return undefined
  const inv = inverse(packed, n)
  if (inv === undefined) return undefined
  const wRe = new Float64Array(count * n)
  const wIm = new Float64Array(count * n)
  let condition = 0
  let row = 0
  for (let k = 0; k < count; k++) {
    let size = 0
    for (let j = 0; j < n; j++) {
      wRe[k * n + j] = inv[row * n + j]!
      if (omega[k]! > 0) wIm[k * n + j] = -inv[(row + 1) * n + j]!
      size += wRe[k * n + j]! ** 2 + wIm[k * n + j]! ** 2
    }
    condition = Math.max(condition, Math.sqrt(size))
    row += omega[k]! > 0 ? 2 : 1
  }
  if (!Number.isFinite(condition)) return undefined
  return { count, sigma, omega, vRe, vIm, wRe, wIm, condition }
}

/**
 * One step of first-order perturbation: lambda_k += w_k r_k, v_k += sum_j v_j (w_j r_k) / (lambda_k - lambda_j)
 * with r_k = A v_k - lambda_k v_k. It recovers slow modes beside parasitics many decades faster.
 */
function refine(a: Float64Array, draft: Draft, modes: Modes): void {
  const { n, count, sigma, omega, vRe, vIm } = draft
  const { wRe, wIm } = modes
  const oldRe = vRe.slice()
  const oldIm = vIm.slice()
  const oldSigma = sigma.slice()
  const oldOmega = omega.slice()
  const rRe = new Float64Array(n)
  const rIm = new Float64Array(n)
  for (let k = 0; k < count; k++) {
    const s = oldSigma[k]!
    const o = oldOmega[k]!
    for (let i = 0; i < n; i++) {
      let re = 0
      let im = 0
      for (let j = 0; j < n; j++) {
        re += a[i * n + j]! * oldRe[j * count + k]!
        im += a[i * n + j]! * oldIm[j * count + k]!
      }
      rRe[i] = re - s * oldRe[i * count + k]! + o * oldIm[i * count + k]!
      rIm[i] = im - s * oldIm[i * count + k]! - o * oldRe[i * count + k]!
    }
    for (let j = 0; j < count; j++) {
      const pair = oldOmega[j]! > 0
      for (let side = 1; side >= (pair ? -1 : 1); side -= 2) {
        let pRe = 0
        let pIm = 0
        for (let i = 0; i < n; i++) {
          const wr = wRe[j * n + i]!
          const wi = side * wIm[j * n + i]!
          pRe += wr * rRe[i]! - wi * rIm[i]!
          pIm += wr * rIm[i]! + wi * rRe[i]!
        }
        if (pair) {
          pRe /= 2
          pIm /= 2
        }
        if (j === k && side === 1) {
          sigma[k] = s + pRe
          if (o > 0) omega[k] = o + pIm
          continue
        }
        const dRe = s - oldSigma[j]!
        const dIm = o - side * oldOmega[j]!
        if (Math.hypot(dRe, dIm) < 1e-6 * (Math.abs(s) + o)) continue
        divide(pRe, pIm, dRe, dIm, 0)
        if (Math.abs(quotientRe) + Math.abs(quotientIm) > 0.1) continue
        for (let i = 0; i < n; i++) {
          const xr = oldRe[i * count + j]!
          const xi = side * oldIm[i * count + j]!
          vRe[i * count + k]! += xr * quotientRe - xi * quotientIm
          if (o > 0) vIm[i * count + k]! += xr * quotientIm + xi * quotientRe
        }
      }
    }
  }
}
