import { copperArea_m2, dcResistance_ohm_per_m } from '../wire/index.ts'
import type { StackLayout } from './types.ts'

export interface WindingCopper {
  readonly winding: string
  readonly turns: number
  /** Wound length without tails, of one wire in hand. */
  readonly length_m: number
  /** Length of one wire in hand with the tails of every entry. */
  readonly cutLength_m: number
  readonly meanTurn_m: number
  readonly dcResistance_ohm: number
  readonly copperArea_m2: number
}

/**
 * Length and direct-current resistance of one winding at a temperature, tails included; its entries are in series,
 * the wires in hand in parallel. Undefined when the stack has no such winding.
 */
export const windingCopper = (
  layout: StackLayout,
  winding: string,
  temperature_C: number,
): WindingCopper | undefined => {
  const used = layout.input.wires[winding]
  let turns = 0
  let cutLength_m = 0
  let tails_m = 0
  for (const section of layout.sections) {
    if (section.winding !== winding) continue
    turns += section.turns
    cutLength_m += section.cutLength_m
    tails_m += 2 * layout.input.tail_m
  }
  if (used === undefined || turns === 0) return undefined
  const length_m = cutLength_m - tails_m
  return {
    winding,
    turns,
    length_m,
    cutLength_m,
    meanTurn_m: length_m / turns,
    dcResistance_ohm: (cutLength_m * dcResistance_ohm_per_m(used.wire, temperature_C)) / used.inHand,
    copperArea_m2: used.inHand * copperArea_m2(used.wire),
  }
}
