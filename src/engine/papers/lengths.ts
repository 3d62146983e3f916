import { barrelPerimeter_m, type StackLayout, turnLength_m } from '../magnetics/stack/index.ts'
import type { Place } from '../supply/build.ts'
import type { Evaluation } from '../supply/evaluation.ts'

/** How far a layer of tape runs past its own start. Common practice, no source. */
export const overlap_m = 5e-3
/** Tails of the choke's winding, 3 cm at each end. Common practice, no source. */
const chokeTails_m = 0.06

const wireWinding: Partial<Record<Place, string>> = {
  primaryWire: 'primary',
  secondaryWire: 'secondary',
  biasWire: 'bias',
}

/** Tape over a whole coil: each run goes round as often as it has layers, and past its own start. */
function tapeLength_m(layout: StackLayout, width_m: number): number {
  const { former } = layout.input
  const runs = Math.ceil(former.width_m / width_m)
  const perimeter_m = barrelPerimeter_m(former.barrel)
  return layout.tapes.reduce((sum, { layers, bottom_m, top_m }) => {
    const turn_m = turnLength_m(perimeter_m, (bottom_m + top_m) / 2)
    return sum + runs * (layers * turn_m + overlap_m)
  }, 0)
}

/** Length of wire or tape that goes into one supply, m; null for what comes by the piece. */
export function lengthOf({ design }: Evaluation, place: Place): number | null {
  const { layout } = design.transformer.coil
  const winding = wireWinding[place]
  if (winding) {
    const inHand = layout.input.wires[winding]?.inHand ?? 1
    const wound = layout.sections.filter((section) => section.winding === winding)
    return inHand * wound.reduce((sum, section) => sum + section.cutLength_m, 0)
  }
  if (place === 'chokeWire')
    return design.chokeInHand * ((design.choke?.winding.length_m ?? 0) + chokeTails_m)
  if (place === 'tape') return tapeLength_m(layout, design.parts.tape.width_m)
  return null
}

/** To the next decimetre up. */
export const metres = (length_m: number) => `${(Math.ceil(length_m * 10 - 1e-6) / 10).toFixed(1)} m`
