import {
  conductorCount,
  conductorSize_m,
  copperResistivity_ohm_m,
  dcResistance_ohm_per_m,
  roundWireResponse,
  sheetProximityFactor,
  sheetSkinFactor,
  skinDepth_m,
  vacuumPermeability_H_per_m,
} from '../wire/index.ts'
import type { LayerFields } from './mean-square.ts'

export interface ResistanceMatrix {
  readonly frequency_Hz: number
  readonly windings: readonly string[]
  /** Row by row: loss is ½ Σ R[i][j] Re(Ii* Ij) for peak phasors, so the matrix is symmetric. */
  readonly resistance_ohm: Float64Array
  readonly method: 'closed-form' | 'field'
}

/**
 * Winding resistances at one frequency from the mean square field of each layer, in about a microsecond: round wires
 * by their Bessel response, with the field of their neighbours in the layer by the lattice sum π² a²/(3 p²); foil by
 * Dowell's sheet; litz by strands, with the field inside its own bundle. Foil beside a gap is not described (several
 * times wrong, because its current moves): use the field solution there. Tails count.
 */
export const resistanceClosedForm = (
  fields: LayerFields,
  frequency_Hz: number,
  temperature_C: number,
): ResistanceMatrix => {
  const { layout, square } = fields
  const { windings, layers, sections, input } = layout
  const count = windings.length
  const resistance_ohm = new Float64Array(count * count)
  const delta_m = skinDepth_m(frequency_Hz, copperResistivity_ohm_m(temperature_C))
  const omega = 2 * Math.PI * frequency_Hz

  for (let self = 0; self < count; self++) {
    const winding = windings[self]!
    const { wire, inHand } = input.wires[winding]!
    const size_m = conductorSize_m(wire)
    const dc_ohm_per_m = dcResistance_ohm_per_m(wire, temperature_C)
    let own = dc_ohm_per_m // Ω per metre of one wire
    let perField = 0 // Ω·m per metre of one wire
    let real = 0
    let imaginary = 0
    if (wire.construction === 'foil') {
      own *= sheetSkinFactor(size_m / delta_m)
      perField = dc_ohm_per_m * sheetProximityFactor(size_m / delta_m) * wire.width_m ** 2
    } else {
      const radius_m = size_m / 2
      const strands = conductorCount(wire)
      const lay = wire.construction === 'litz' ? wire.lay : 1
      const round = roundWireResponse(size_m, delta_m)
      perField =
        2 *
        Math.PI *
        omega *
        vacuumPermeability_H_per_m *
        radius_m *
        radius_m *
        Math.abs(round.dipoleImaginary) *
        strands *
        lay
      own *= round.resistanceFactor
      if (strands > 1) own += perField / (2 * Math.PI * Math.PI * wire.overall_m * wire.overall_m)
      real = ((Math.PI * Math.PI) / 3) * strands * radius_m * radius_m * round.dipoleReal
      imaginary = ((Math.PI * Math.PI) / 3) * strands * radius_m * radius_m * round.dipoleImaginary
    }
    for (let l = 0; l < layers.length; l++) {
      const layer = layers[l]!
      if (layer.winding !== winding) continue
      const length_m = layer.turns * inHand * layer.meanTurn_m
      resistance_ohm[self * count + self]! += (layer.turns * layer.meanTurn_m * own) / inHand
      const pitch_m = layer.pitch_m / inHand
      const down = (1 - real / (pitch_m * pitch_m)) ** 2 + (imaginary / (pitch_m * pitch_m)) ** 2
      const weight = (length_m * perField) / down
      for (let c = 0; c < count * count; c++) resistance_ohm[c]! += weight * square[l * count * count + c]!
    }
    for (const section of sections)
      if (section.winding === winding)
        resistance_ohm[self * count + self]! += (2 * input.tail_m * own) / inHand
  }
  return { frequency_Hz, windings, resistance_ohm, method: 'closed-form' }
}
