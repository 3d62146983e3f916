import type { WirePoints } from './conductors.ts'
import type { RowPairs } from './row-pairs.ts'
import type { Slot } from './slot.ts'

/** How the wires of a window answer each other. */
export interface DipoleCoupling {
  /** Real matrix D (2N × 2N, row by row, order Bz, Br of each wire), symmetric: b = b0 + D (β a² b). */
  readonly matrix: Float64Array
  /** Row sums of like components: the answer to an even field. */
  readonly even: Float64Array
}

/**
 * Field of line dipoles between walls. A round wire of radius a in a transverse field b answers as a dipole, whose
 * field elsewhere is −β a² conj(b)/(ζ − ζ′)² with b = Bz + i Br and ζ = r + i z in the plane of the section. Plates at both
 * ends mirror it with period 2h, which sums to (π/2h)²/sinh²; post and outer leg mirror it once each. Curvature is
 * neglected: coupling is a matter of neighbours.
 */
export const dipoleCoupling = (points: WirePoints, slot: Slot, pairs: RowPairs): DipoleCoupling => {
  const n = points.count
  const size = 2 * n
  const matrix = new Float64Array(size * size)
  const unit = (Math.PI / slot.height_m) ** 2 / 2
  const { cosine, sine, row } = points

  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const pair = (row[i]! * pairs.rows + row[j]!) * 3
      // cos and sin of π(zi − zj)/h and of π(zi + zj)/h
      const cc = cosine[i]! * cosine[j]!
      const ss = sine[i]! * sine[j]!
      const sc = sine[i]! * cosine[j]!
      const cs = cosine[i]! * sine[j]!
      let uu = 0
      let uv = 0
      let vu = 0
      let vv = 0
      // Alike: −conj(b) g, a reflected one the other way round: −b g. Sign turns at a side wall.
      const add = (way: number, sign: number, c: number, s: number, conjugate: boolean): void => {
        const real = pairs.cosh[pair + way]! * c - 1
        const imaginary = pairs.sinh[pair + way]! * s
        const scale = (sign * unit) / (real * real + imaginary * imaginary)
        const gr = real * scale
        const gi = -imaginary * scale
        uu += gr
        if (conjugate) {
          uv += gi
          vu += gi
          vv -= gr
        } else {
          uv -= gi
          vu += gi
          vv += gr
        }
      }
      if (i === j) {
        uu += unit / 6
        vv -= unit / 6
      } else add(0, -1, cc + ss, sc - cs, true)
      add(0, -1, cc - ss, sc + cs, false)
      for (const wall of [1, 2]) {
        add(wall, 1, cc + ss, sc - cs, false)
        add(wall, 1, cc - ss, sc + cs, true)
      }
      const [a, b] = [2 * i * size + 2 * j, 2 * j * size + 2 * i]
      matrix[a] = uu
      matrix[a + 1] = uv
      matrix[a + size] = vu
      matrix[a + size + 1] = vv
      matrix[b] = uu
      matrix[b + 1] = vu
      matrix[b + size] = uv
      matrix[b + size + 1] = vv
    }
  const even = new Float64Array(size)
  for (let i = 0; i < size; i++) for (let j = i % 2; j < size; j += 2) even[i]! += matrix[i * size + j]!
  return { matrix, even }
}

/** Dipole strengths β a² of every wire at one frequency. */
export interface DipoleStrength {
  readonly real: Float64Array
  readonly imaginary: Float64Array
}

export type LocalFieldResult =
  | {
      readonly ok: true
      readonly real: Float64Array
      readonly imaginary: Float64Array
      readonly steps: number
    }
  | { readonly ok: false; readonly message: string; readonly residual: number }

const tolerance = 1e-3
const greatestSteps = 200

/**
 * Field at every wire with all wires answering each other: b = b0 + D s b, s the dipole strengths. Written for the
 * dipoles y = s b it is (1/s − D) y = b0, whose matrix is complex symmetric; conjugate gradients without conjugation
 * (van der Vorst & Melissen, IEEE Trans. Magn. 26 (1990) 706) solve it in a few steps, led by the response of a wire
 * and its neighbours to an even field (the row sums of D). What does not settle is returned as a failure.
 */
export const localField = (
  { matrix, even }: DipoleCoupling,
  strength: DipoleStrength,
  given: Float64Array,
  givenImaginary: Float64Array | null,
): LocalFieldResult => {
  const size = 2 * strength.real.length
  const make = (): Float64Array => new Float64Array(size)
  const [invR, invI, leadR, leadI] = [make(), make(), make(), make()]
  for (let i = 0; i < size; i++) {
    const sr = strength.real[i >> 1]!
    const si = strength.imaginary[i >> 1]!
    const square = sr * sr + si * si
    invR[i] = sr / square
    invI[i] = -si / square
    const dr = invR[i]! - even[i]!
    const di = invI[i]!
    const down = dr * dr + di * di
    leadR[i] = dr / down
    leadI[i] = -di / down
  }
  const [yR, yI, rR, rI, pR, pI, qR, qI, zR, zI] = Array.from({ length: 10 }, make) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  const multiply = (): void => {
    for (let i = 0; i < size; i++) {
      // Two sums each, for even and odd columns, so that additions need not wait for each other.
      let re0 = 0
      let re1 = 0
      let im0 = 0
      let im1 = 0
      for (let j = 0, at = i * size; j < size; j += 2, at += 2) {
        const a = matrix[at]!
        const b = matrix[at + 1]!
        re0 += a * pR[j]!
        re1 += b * pR[j + 1]!
        im0 += a * pI[j]!
        im1 += b * pI[j + 1]!
      }
      qR[i] = invR[i]! * pR[i]! - invI[i]! * pI[i]! - re0 - re1
      qI[i] = invR[i]! * pI[i]! + invI[i]! * pR[i]! - im0 - im1
    }
  }
  let start = 0
  for (let i = 0; i < size; i++) {
    rR[i] = given[i]!
    rI[i] = givenImaginary?.[i] ?? 0
    start += rR[i]! ** 2 + rI[i]! ** 2
  }
  let residual = start > 0 ? 1 : 0
  let steps = 0
  let [rhoR, rhoI] = [1, 0]
  while (residual > tolerance && steps < greatestSteps) {
    let nextR = 0
    let nextI = 0
    for (let i = 0; i < size; i++) {
      zR[i] = leadR[i]! * rR[i]! - leadI[i]! * rI[i]!
      zI[i] = leadR[i]! * rI[i]! + leadI[i]! * rR[i]!
      nextR += rR[i]! * zR[i]! - rI[i]! * zI[i]!
      nextI += rR[i]! * zI[i]! + rI[i]! * zR[i]!
    }
    const rhoSquare = rhoR * rhoR + rhoI * rhoI
    const betaR = steps === 0 ? 0 : (nextR * rhoR + nextI * rhoI) / rhoSquare
    const betaI = steps === 0 ? 0 : (nextI * rhoR - nextR * rhoI) / rhoSquare
    rhoR = nextR
    rhoI = nextI
    for (let i = 0; i < size; i++) {
      const a = pR[i]!
      const b = pI[i]!
      pR[i] = zR[i]! + betaR * a - betaI * b
      pI[i] = zI[i]! + betaR * b + betaI * a
    }
    multiply()
    let curveR = 0
    let curveI = 0
    for (let i = 0; i < size; i++) {
      curveR += pR[i]! * qR[i]! - pI[i]! * qI[i]!
      curveI += pR[i]! * qI[i]! + pI[i]! * qR[i]!
    }
    const curve = curveR * curveR + curveI * curveI
    const alphaR = (rhoR * curveR + rhoI * curveI) / curve
    const alphaI = (rhoI * curveR - rhoR * curveI) / curve
    let left = 0
    for (let i = 0; i < size; i++) {
      yR[i]! += alphaR * pR[i]! - alphaI * pI[i]!
      yI[i]! += alphaR * pI[i]! + alphaI * pR[i]!
      rR[i]! -= alphaR * qR[i]! - alphaI * qI[i]!
      rI[i]! -= alphaR * qI[i]! + alphaI * qR[i]!
      left += rR[i]! ** 2 + rI[i]! ** 2
    }
    residual = Math.sqrt(left / start)
    steps++
    if (!Number.isFinite(residual)) break
  }
  if (!(residual <= tolerance))
    return {
      ok: false,
      residual,
      message: `field between wires did not settle: residual ${residual.toPrecision(2)} after ${steps} steps, wanted ${tolerance}`,
    }
  for (let i = 0; i < size; i++) {
    zR[i] = invR[i]! * yR[i]! - invI[i]! * yI[i]!
    zI[i] = invR[i]! * yI[i]! + invI[i]! * yR[i]!
  }
  return { ok: true, real: zR, imaginary: zI, steps }
}

/**
 * Field at every wire of many, each answering only its own row taken as endless and even: along the row
 * b0/(1 − s κ), across it b0/(1 + s κ), κ = π²/(3 p²). Right to a few per cent away from gaps and row ends.
 */
export const rowField = (
  pitch_m: Float64Array,
  strength: DipoleStrength,
  given: Float64Array,
  givenImaginary: Float64Array | null,
): { readonly real: Float64Array; readonly imaginary: Float64Array } => {
  const real = new Float64Array(given.length)
  const imaginary = new Float64Array(given.length)
  for (let i = 0; i < given.length; i++) {
    const sum = ((i % 2 ? -1 : 1) * Math.PI ** 2) / (3 * pitch_m[i >> 1]! ** 2)
    const down = 1 - sum * strength.real[i >> 1]!
    const turn = -sum * strength.imaginary[i >> 1]!
    const square = down * down + turn * turn
    const gi = givenImaginary?.[i] ?? 0
    real[i] = (given[i]! * down + gi * turn) / square
    imaginary[i] = (gi * down - given[i]! * turn) / square
  }
  return { real, imaginary }
}
