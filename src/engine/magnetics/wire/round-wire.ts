/**
 * Eddy currents in one round wire, both from the ratio t = x J0(x)/J1(x) of Bessel functions with
 * x = (1 − j) a/δ (a radius, δ skin depth):
 *
 * - own current: R_ac/R_dc = Re t / 2;
 * - uniform transverse field H: the wire answers as a line dipole of moment 2π a² β H with β = 2/t − 1
 *   (= J2/J0): no response at low frequency, −1 (field expelled) at high frequency. Loss per length for a peak
 *   field H is π ω μ0 a² |Im β| H².
 *
 * - field that grows across the wire, A = Re(c ζ²): a quadrupole with response J3/J1 = 4 (2 − t)/x² − 1; loss per length
 *   2π ω a⁴ |Im J3/J1| |c|²/μ0.
 *
 * The ratio comes from its continued fraction t = 2 − x²/(4 − x²/(6 − …)), which converges for every x of this
 * direction. Source: Abramowitz & Stegun 9.1.73; Lammeraner & Štafl, Eddy Currents (1966).
 */
export interface RoundWireResponse {
  /** R_ac/R_dc of the wire alone. */
  readonly resistanceFactor: number
  /** ωL_internal/R_dc of the wire alone. */
  readonly internalReactance: number
  /** Complex dipole response β to a transverse field. */
  readonly dipoleReal: number
  readonly dipoleImaginary: number
  /** Imaginary part of the response J3/J1 to a field that grows across the wire. */
  readonly quadrupoleImaginary: number
}

/** Response of a round wire of diameter d at skin depth δ; all d/δ from 0 to 400. */
export const roundWireResponse = (diameter_m: number, skinDepth_m: number): RoundWireResponse => {
  const ratio = diameter_m / (2 * skinDepth_m)
  const s = 2 * ratio * ratio // x² = −j s
  let real = 2 * (Math.ceil(1.5 * ratio) + 9)
  let imaginary = 0
  for (let k = real - 2; k >= 2; k -= 2) {
    // t = k + j s / t, since −x² = j s
    const scale = s / (real * real + imaginary * imaginary)
    const nextReal = k + scale * imaginary
    imaginary = scale * real
    real = nextReal
  }
  const size = real * real + imaginary * imaginary
  return {
    resistanceFactor: real / 2,
    internalReactance: imaginary / 2,
    dipoleReal: (2 * real) / size - 1,
    dipoleImaginary: (-2 * imaginary) / size,
    // 4 (2 − t)/(−j s) = 4 j (2 − t)/s, whose imaginary part is 4 (2 − Re t)/s; small s by its series, x²/24.
    quadrupoleImaginary: s < 1e-4 ? -s / 24 : (4 * (2 - real)) / s,
  }
}
