import { wireHeight_m, wireWidth_m } from '../wire/index.ts'
import type { StackLayout, WoundLayer } from './types.ts'

/**
 * Centres of every wire of one layer in the section of the window: pairs (height above the barrel, z from mid-width)
 * in metres, turn by turn, and within a turn wire by wire. Foils in hand lie on each other, other wires side by side.
 */
export const wirePositions = (layout: StackLayout, layer: WoundLayer): Float64Array => {
  const { wire, inHand } = layout.input.wires[layer.winding]!
  const positions = new Float64Array(2 * layer.turns * inHand)
  const foil = wire.construction === 'foil'
  const step_m = foil ? wireHeight_m(wire) : wireWidth_m(wire)
  let at = 0
  for (let turn = 0; turn < layer.turns; turn++) {
    const z_m = (turn - (layer.turns - 1) / 2) * layer.pitch_m
    for (let strand = 0; strand < inHand; strand++) {
      const offset_m = (strand - (inHand - 1) / 2) * step_m
      positions[at++] = (layer.bottom_m + layer.top_m) / 2 + (foil ? offset_m : 0)
      positions[at++] = z_m + (foil ? 0 : offset_m)
    }
  }
  return positions
}
