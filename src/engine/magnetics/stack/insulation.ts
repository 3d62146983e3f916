import { wireInsulation_m } from '../wire/index.ts'
import type { StackLayout, WoundSection } from './types.ts'

/** What separates two winding entries that face each other, or the nearest entries of two windings. */
export interface InsulationBetween {
  readonly from: string
  readonly to: string
  /** Layers of tape and their thickness between the nearest two entries. */
  readonly tapeLayers: number
  readonly tape_m: number
  /** Insulation of the wires themselves, both sides together. */
  readonly wires_m: number
  /** Both or one of the wires has reinforced insulation of its own. */
  readonly reinforcedWire: boolean
  /** A shield lies between them. */
  readonly shielded: boolean
  /**
   * Along surfaces from the edge of one winding over the edge of the tape to the edge of the other: both margins
   * and the tape's own thickness.
   */
  readonly surface_m: number
  /** From one winding over the flanges to the core, and from the core back to the other. */
  readonly throughCore_m: number
}

const gapBetween = (a: WoundSection, b: WoundSection): number =>
  a.bottom_m < b.bottom_m ? b.bottom_m - a.top_m : a.bottom_m - b.top_m

/**
 * Insulation between every pair of windings, at the pair of entries where least tape lies between them. Distances
 * are geometry as wound, not a judgement; requirements come from the standard that applies.
 */
export const insulationBetween = (layout: StackLayout): InsulationBetween[] => {
  const result: InsulationBetween[] = []
  const { windings, sections, tapes, shields, input } = layout
  for (let i = 0; i < windings.length; i++) {
    for (let j = i + 1; j < windings.length; j++) {
      const from = windings[i]!
      const to = windings[j]!
      let best: InsulationBetween | undefined
      for (const a of sections) {
        if (a.winding !== from) continue
        for (const b of sections) {
          if (b.winding !== to) continue
          const [low, high] = a.bottom_m < b.bottom_m ? [a.top_m, b.bottom_m] : [b.top_m, a.bottom_m]
          const between = tapes.filter((t) => t.bottom_m >= low - 1e-9 && t.top_m <= high + 1e-9)
          const tapeLayers = between.reduce((sum, t) => sum + t.layers, 0)
          const nearer = best === undefined || tapeLayers < best.tapeLayers
          if (!nearer) continue
          const wires = [input.wires[from]!.wire, input.wires[to]!.wire]
          best = {
            from,
            to,
            tapeLayers,
            tape_m: tapeLayers * input.tape_m,
            wires_m: wireInsulation_m(wires[0]!) + wireInsulation_m(wires[1]!),
            reinforcedWire: wires.some(
              (wire) => wire.construction === 'triple-insulated' && wire.insulation === 'reinforced',
            ),
            shielded: shields.some((s) => s.bottom_m >= low - 1e-9 && s.top_m <= high + 1e-9),
            surface_m: 2 * input.margin_m + Math.max(0, gapBetween(a, b)),
            throughCore_m: 2 * (input.margin_m + input.former.flange_m),
          }
        }
      }
      if (best) result.push(best)
    }
  }
  return result
}
