import type { WirePoints } from './conductors.ts'
import type { Slot } from './slot.ts'

/**
 * Field of line dipoles between walls. A round wire of radius a in a transverse field b answers as a dipole, whose
 * field elsewhere is −β a² conj(b)/(ζ − ζ′)² with b = Bz + i Br and ζ = r + i z in the plane of the section. Plates at both
 * ends mirror it with period 2h, which sums to (π/2h)²/sinh²; post and outer leg mirror it once each. Curvature is
 * neglected: coupling is a matter of neighbours.
 *
 * The result is the real matrix D (2N × 2N, row by row, order Bz, Br of each wire) with
 * b = b0 + D (β a² b); it is symmetric.
 */
export const dipoleCoupling = (points: WirePoints, slot: Slot): Float64Array => {
  const n = points.count
  const size = 2 * n
  const matrix = new Float64Array(size * size)
  const unit = (Math.PI / slot.height_m) ** 2 / 2
  const { cosine, sine, r_m } = points
  const half = Math.PI / slot.height_m

  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
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
      const add = (x: number, sign: number, c: number, s: number, conjugate: boolean): void => {
        const exp = Math.exp(half * x)
        const cosh = (exp + 1 / exp) / 2
        const sinh = (exp - 1 / exp) / 2
        const real = cosh * c - 1
        const imaginary = sinh * s
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
      const apart = r_m[i]! - r_m[j]!
      if (i === j) {
        uu += unit / 6
        vv -= unit / 6
      } else add(apart, -1, cc + ss, sc - cs, true)
      add(apart, -1, cc - ss, sc + cs, false)
      for (const wall of [slot.inner_m, slot.outer_m]) {
        const across = r_m[i]! + r_m[j]! - 2 * wall
        add(across, 1, cc + ss, sc - cs, false)
        add(across, 1, cc - ss, sc + cs, true)
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
  return matrix
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

const tolerance = 5e-4
const greatestSteps = 80

/**
 * Field at every wire with all wires answering each other: b = b0 + D (s b). Each step takes the response of a wire
 * and its neighbours to an even field exactly (the row sums of D) and iterates on the rest, which converges in a few
 * steps for any winding that can be wound; one that does not converge is returned as a failure.
 */
export const localField = (
  matrix: Float64Array,
  strength: DipoleStrength,
  given: Float64Array,
): LocalFieldResult => {
  const size = 2 * strength.real.length
  const real = new Float64Array(size)
  const imaginary = new Float64Array(size)
  const evenReal = new Float64Array(size)
  const evenImaginary = new Float64Array(size)
  for (let i = 0; i < size; i++) {
    let sr = 0
    let si = 0
    for (let j = i % 2; j < size; j += 2) {
      sr += matrix[i * size + j]! * strength.real[j >> 1]!
      si += matrix[i * size + j]! * strength.imaginary[j >> 1]!
    }
    evenReal[i] = sr
    evenImaginary[i] = si
    const down = (1 - sr) ** 2 + si * si
    real[i] = (given[i]! * (1 - sr)) / down
    imaginary[i] = (given[i]! * si) / down
  }
  const answerReal = new Float64Array(size)
  const answerImaginary = new Float64Array(size)
  let residual = 0
  for (let step = 1; step <= greatestSteps; step++) {
    for (let i = 0; i < size; i++) {
      const [sr, si] = [strength.real[i >> 1]!, strength.imaginary[i >> 1]!]
      answerReal[i] = sr * real[i]! - si * imaginary[i]!
      answerImaginary[i] = sr * imaginary[i]! + si * real[i]!
    }
    let change = 0
    let scale = 0
    for (let i = 0; i < size; i++) {
      let fr = given[i]!
      let fi = 0
      for (let j = 0, at = i * size; j < size; j++, at++) {
        fr += matrix[at]! * answerReal[j]!
        fi += matrix[at]! * answerImaginary[j]!
      }
      const dr = fr - real[i]!
      const di = fi - imaginary[i]!
      const down = (1 - evenReal[i]!) ** 2 + evenImaginary[i]! ** 2
      const stepReal = (dr * (1 - evenReal[i]!) - di * evenImaginary[i]!) / down
      const stepImaginary = (di * (1 - evenReal[i]!) + dr * evenImaginary[i]!) / down
      real[i]! += stepReal
      imaginary[i]! += stepImaginary
      change += stepReal ** 2 + stepImaginary ** 2
      scale += real[i]! ** 2 + imaginary[i]! ** 2
    }
    residual = scale > 0 ? Math.sqrt(change / scale) : 0
    if (residual < tolerance) return { ok: true, real, imaginary, steps: step }
    if (!Number.isFinite(residual)) break
  }
  return {
    ok: false,
    residual,
    message: `field between wires did not settle: change ${residual.toPrecision(2)} after ${greatestSteps} steps, wanted ${tolerance}`,
  }
}
