import type { LayerFields } from '../stack/index.ts'
import {
  type Curve,
  copperResistivity_ohm_m,
  leastOn,
  roundWireResponse,
  sheetProximityFactor,
  sheetSkinFactor,
  skinDepth_m,
  vacuumPermeability_H_per_m,
} from '../wire/index.ts'
import type { Harmonics } from './waveform-harmonics.ts'

export interface CurveRequest {
  /** Field of the layers as wound now; it hardly depends on what the conductor is divided into. */
  readonly fields: LayerFields
  readonly winding: string
  /** Current of every winding in the order of the layout's windings. */
  readonly currents: readonly Harmonics[]
  readonly frequency_Hz: number
  readonly temperature_C: number
}

/** What the winding's layers do to one of its conductors, harmonic by harmonic. */
interface Exposure {
  readonly length_m: number
  /** Average current squared, then half the square of each harmonic (A²). */
  readonly own_A2: Float64Array
  /** Length times half the mean square field of each harmonic (A²/m). */
  readonly field: Float64Array
}

const exposure = ({ fields, winding, currents }: CurveRequest): Exposure => {
  const { layers, windings } = fields.layout
  const count = windings.length
  const self = currents[windings.indexOf(winding)]!
  const harmonics = self.real.length
  const own_A2 = new Float64Array(harmonics + 1)
  const field = new Float64Array(harmonics + 1)
  own_A2[0] = self.average ** 2
  for (let n = 0; n < harmonics; n++) own_A2[n + 1] = (self.real[n]! ** 2 + self.imaginary[n]! ** 2) / 2
  let length_m = 0
  layers.forEach((layer, l) => {
    if (layer.winding !== winding) return
    length_m += layer.turns * layer.meanTurn_m
    for (let n = 0; n < harmonics; n++)
      for (let i = 0; i < count; i++)
        for (let j = 0; j < count; j++)
          field[n + 1]! +=
            (layer.turns *
              layer.meanTurn_m *
              fields.square[(l * count + i) * count + j]! *
              (currents[i]!.real[n]! * currents[j]!.real[n]! +
                currents[i]!.imaginary[n]! * currents[j]!.imaginary[n]!)) /
            2
  })
  return { length_m, own_A2, field }
}

/**
 * Loss (W) of a winding of n equal strands in parallel of diameter d: Σ R_dc F(d/δ) I² and the strands' answer to the
 * layer field. Strands share the current; the field inside their own bundle and the answer of neighbours are left out,
 * so it holds for strands up to about one skin depth, where the least point lies.
 */
const strandLoss_W = (request: CurveRequest, seen: Exposure, strands: number, diameter_m: number): number => {
  const rho = copperResistivity_ohm_m(request.temperature_C)
  const radius_m = diameter_m / 2
  const dc_ohm = (rho * seen.length_m) / (strands * Math.PI * radius_m * radius_m)
  let loss_W = dc_ohm * seen.own_A2[0]!
  for (let n = 1; n < seen.own_A2.length; n++) {
    const frequency_Hz = n * request.frequency_Hz
    const answer = roundWireResponse(diameter_m, skinDepth_m(frequency_Hz, rho))
    loss_W += dc_ohm * answer.resistanceFactor * seen.own_A2[n]!
    loss_W +=
      strands *
      4 *
      Math.PI ** 2 *
      frequency_Hz *
      vacuumPermeability_H_per_m *
      radius_m *
      radius_m *
      Math.abs(answer.dipoleImaginary) *
      seen.field[n]!
  }
  return loss_W
}

/** Loss against strand diameter with the number of strands fixed. */
export const strandDiameterLoss = (
  request: CurveRequest,
  strands: number,
  from_m: number,
  to_m: number,
): Curve => {
  const seen = exposure(request)
  return leastOn(from_m, to_m, 50, (diameter_m) => strandLoss_W(request, seen, strands, diameter_m))
}

/** Loss against the number of strands (taken as continuous) with their diameter fixed. */
export const strandCountLoss = (
  request: CurveRequest,
  diameter_m: number,
  from: number,
  to: number,
): Curve => {
  const seen = exposure(request)
  return leastOn(from, to, 50, (strands) => strandLoss_W(request, seen, strands, diameter_m))
}

/** Loss against foil thickness with the width of the foil fixed, current even along the width. */
export const foilThicknessLoss = (
  request: CurveRequest,
  width_m: number,
  from_m: number,
  to_m: number,
): Curve => {
  const seen = exposure(request)
  const rho = copperResistivity_ohm_m(request.temperature_C)
  return leastOn(from_m, to_m, 50, (thickness_m) => {
    const sheet_ohm = rho / thickness_m
    let loss_W = ((sheet_ohm * seen.length_m) / width_m) * seen.own_A2[0]!
    for (let n = 1; n < seen.own_A2.length; n++) {
      const xi = thickness_m / skinDepth_m(n * request.frequency_Hz, rho)
      loss_W += ((sheet_ohm * seen.length_m) / width_m) * sheetSkinFactor(xi) * seen.own_A2[n]!
      loss_W += sheet_ohm * width_m * sheetProximityFactor(xi) * seen.field[n]!
    }
    return loss_W
  })
}
