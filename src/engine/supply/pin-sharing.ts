import { copperArea_m2 } from '../magnetics/wire/index.ts'
import type { Wire } from '../parts/part.ts'
import { windingNames } from './build.ts'
import type { Design } from './design.ts'
import { pinsAnEnd } from './pins-an-end.ts'

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
    const ends = sections.filter((s) => s.winding === winding).length + 1
    const pins = winding === 'secondary' ? pinsAnEnd(inHand, copper_m2, parts.former.rowTwo, ends) : 1
    return { winding, inHand, pins, wiresOnPin: Math.ceil(inHand / pins), copper_m2 }
  })
}

/**
 * Every pin that the wires of each end of the secondary go to, by the pin that the end is named after, itself first:
 * its neighbours where they are free, from the far end of the row on, else the nearest that are.
 */
export function pinGroups(design: Design): ReadonlyMap<number, readonly number[]> {
  const { sections } = design.transformer.coil.layout
  const { rowOne, rowTwo } = design.parts.former
  const wanted = pinSharing(design).find((share) => share.winding === 'secondary')?.pins ?? 1
  const ends = new Set(
    sections.filter((s) => s.winding === 'secondary').flatMap((s) => [s.startPin, s.finishPin]),
  )
  const taken = new Set(sections.flatMap((s) => [s.startPin, s.finishPin]))
  const groups = new Map<number, readonly number[]>()
  if (wanted === 1) return groups
  const free = Array.from({ length: rowTwo }, (_, i) => rowOne + rowTwo - i).filter((pin) => !taken.has(pin))
  for (const end of [...ends].filter((pin) => pin !== null).sort((a, b) => b - a)) {
    const near = [...free].sort((a, b) => Math.abs(a - end) - Math.abs(b - end)).slice(0, wanted - 1)
    for (const pin of near) free.splice(free.indexOf(pin), 1)
    groups.set(end, [end, ...near])
  }
  return groups
}
