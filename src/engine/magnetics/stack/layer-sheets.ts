import { wireHeight_m, wireWidth_m } from '../wire/index.ts'
import { postDistance_m } from './barrel.ts'
import type { StackLayout } from './types.ts'

/** Axial harmonics kept by the closed forms; all are even because every layer lies centred on the window. */
export const sheetHarmonics = 14

/** Side of the square that has the area of a circle, over its diameter. */
const squareSide = Math.sqrt(Math.PI) / 2

/** The layers of a stack as flat blocks of current, column by column. */
export interface LayerSheets {
  readonly count: number
  /** Distance of the middle from the post. */
  readonly x_m: Float64Array
  /** Copper thickness across and span along the post. */
  readonly thickness_m: Float64Array
  readonly span_m: Float64Array
  /**
   * Extra flux linkage of a turn over that of an even sheet, as a length factor of μ0/2π: for turns that lie apart.
   */
  readonly lumped: Float64Array
}

/**
 * A row of conductors of w × t at pitch p has more inductance than a sheet of that thickness: per turn and length
 * μ0/2π times Σ (4π/p) (sin(πmw/p)/(πmw/p))² G, with G the self-field function of a block at wave number 2πm/p. Narrow
 * conductors sum to ln(p/(2π g)) + π t/(3 p), g = 0.2235 (w + t) the mean distance of a rectangle from itself.
 * Nothing is left when conductors touch. Source: Fourier series of the row; rectangle, Maxwell, Treatise, § 692.
 */
const lumpedFactor = (pitch_m: number, width_m: number, thickness_m: number): number => {
  const y = (2 * Math.PI * thickness_m) / pitch_m
  if (width_m < pitch_m / 4)
    return Math.log(pitch_m / (2 * Math.PI * 0.2235 * (width_m + thickness_m))) + y / 6
  let sum = 0
  for (let m = 1; m <= 8; m++) {
    const half = (m * Math.PI * width_m) / pitch_m
    sum += (Math.sin(half) / half) ** 2 * thickFactor(m * y)
  }
  return 2 * y * sum
}

/**
 * Mean of exp(−k|x − x'|)/(2 k t) over a layer of thickness t with itself, y = k t: (1 − (1 − e^−y)/y)/y². `fall` is
 * e^−y where it is known already.
 */
export const thickFactor = (y: number, fall = Math.exp(-y)): number =>
  y < 0.05 ? 1 / (2 * y) - 1 / 6 + y / 24 : (1 - (1 - fall) / y) / (y * y)

const withRoom = (layers: number) => ({
  x_m: new Float64Array(layers),
  thickness_m: new Float64Array(layers),
  span_m: new Float64Array(layers),
  lumped: new Float64Array(layers),
})
let room = withRoom(0)

/** Good until the sheets of another layout are asked for: their arrays are used anew. */
export const layerSheets = (layout: StackLayout): LayerSheets => {
  const { layers, input } = layout
  const offset_m = postDistance_m(input.core, input.former)
  const count = layers.length
  if (room.x_m.length < count) room = withRoom(count)
  const sheets: LayerSheets = { count, ...room }
  for (let i = 0; i < count; i++) {
    const layer = layers[i]!
    const { wire, inHand } = input.wires[layer.winding]!
    const foil = wire.construction === 'foil'
    const thickness_m = foil
      ? inHand * wireHeight_m(wire) - wire.insulation_m
      : squareSide * (wire.construction === 'litz' ? wire.overall_m : wire.bare_m)
    sheets.x_m[i] = (layer.bottom_m + layer.top_m) / 2 + offset_m
    sheets.thickness_m[i] = thickness_m
    // Each turn stands for one pitch of the sheet.
    sheets.span_m[i] = layer.turns * layer.pitch_m
    sheets.lumped[i] = !foil
      ? lumpedFactor(layer.pitch_m, (inHand - 1) * wireWidth_m(wire) + thickness_m, thickness_m)
      : 0
  }
  return sheets
}
