import { copperArea_m2 } from '../magnetics/wire/index.ts'
import type { Wire } from '../parts/part.ts'
import { windingNames } from './build.ts'
import type { Design } from './design.ts'

/** What one pin of a former takes: wires wrapped on it, and their copper; common practice, no source. */
export const wiresAPin = 4
export const copperAPin_m2 = 1.5e-6

/** How the wires in hand of one winding come to the pins. */
export interface PinShare {
  readonly winding: (typeof windingNames)[number]
  readonly inHand: number
  /** Pins that each end is spread over, joined on the board. */
  readonly pins: number
  readonly wiresOnPin: number
  /** Copper of one wire. */
  readonly copper_m2: number
}

/**
 * Pins that each end of each winding is spread over, no more than it needs: the secondary has its row to itself, shared
 * by its ends; primary and bias have one pin an end.
 */
export function pinSharing({ parts, transformer }: Design): PinShare[] {
  const wires: Readonly<Record<PinShare['winding'], Wire>> = {
    primary: parts.primaryWire,
    secondary: parts.secondaryWire,
    bias: parts.biasWire,
  }
  const { sections, input } = transformer.coil.layout
  return windingNames.map((winding) => {
    const inHand = input.wires[winding]?.inHand ?? 1
    const copper_m2 = copperArea_m2(wires[winding])
    const most = Math.max(1, Math.min(wiresAPin, Math.floor(copperAPin_m2 / copper_m2)))
    const ends = sections.filter((s) => s.winding === winding).length + 1
    const free = winding === 'secondary' ? Math.max(1, Math.floor(parts.former.rowTwo / ends)) : 1
    const pins = Math.min(free, Math.ceil(inHand / most))
    return { winding, inHand, pins, wiresOnPin: Math.ceil(inHand / pins), copper_m2 }
  })
}
