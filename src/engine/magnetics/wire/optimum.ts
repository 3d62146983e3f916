import { dowellFactor } from './dowell.ts'
import { roundWireResponse } from './round-wire.ts'

/** A curve with its least point. */
export interface Curve {
  readonly x: Float64Array
  readonly y: Float64Array
  readonly best: { readonly x: number; readonly y: number }
}

const golden = (Math.sqrt(5) - 1) / 2

/**
 * Sample a positive function on a logarithmic scale and find its least point, refined by golden section between the
 * neighbours of the least sample. A least point at an end of the range is that end.
 */
export const leastOn = (from: number, to: number, points: number, f: (x: number) => number): Curve => {
  const x = Float64Array.from({ length: points }, (_, i) => from * (to / from) ** (i / (points - 1)))
  const y = x.map(f)
  let at = 0
  for (let i = 1; i < points; i++) if (y[i]! < y[at]!) at = i
  let low = Math.log(x[Math.max(0, at - 1)]!)
  let high = Math.log(x[Math.min(points - 1, at + 1)]!)
  for (let step = 0; step < 40; step++) {
    const a = high - golden * (high - low)
    const b = low + golden * (high - low)
    if (f(Math.exp(a)) < f(Math.exp(b))) high = b
    else low = a
  }
  const refined = Math.exp((low + high) / 2)
  const value = f(refined)
  return { x, y, best: value < y[at]! ? { x: refined, y: value } : { x: x[at]!, y: y[at]! } }
}

/**
 * Resistance of m foil layers in series against foil thickness over skin depth, relative to the dc resistance of foil
 * one skin depth thick: F(ξ)/ξ. Its least point tends to F = 4/3 for many layers. Source: Snelling, Soft Ferrites
 * (1988), chapter 11.
 */
export const foilThicknessCurve = (layers: number, points = 60): Curve =>
  leastOn(0.02, 5, points, (xi) => dowellFactor(xi, layers) / xi)

/**
 * Resistance of a bundle of n round strands in a transverse field against strand diameter over skin depth, n fixed:
 * own part F(d/δ)/d² and proximity part of the strands' answer to the field. `field` is the mean square field per
 * square of the bundle's current times n² δ² (a pure number that grows with layers). Relative to strands of one skin
 * depth without field. Its least point tends to F = 3/2 for strong fields. Source: Sullivan, IEEE Trans. Power
 * Electron. 14 (1999) 283.
 */
export const strandDiameterCurve = (field: number, points = 60): Curve =>
  leastOn(0.02, 5, points, (ratio) => {
    const response = roundWireResponse(ratio, 1)
    // Loss in a field over dc resistance of the strand at d = δ: 2π ω μ0 a² |Im β| H² · π δ²/(4 ρ), ω μ0/ρ = 2/δ².
    const proximity = (Math.PI ** 2 / 4) * ratio ** 2 * Math.abs(response.dipoleImaginary) * field
    return response.resistanceFactor / ratio ** 2 + proximity
  })
