import {
  conductorSize_m,
  copperArea_m2,
  copperSkinDepth_m,
  wireHeight_m,
} from '../../magnetics/wire/index.ts'
import type { Drawer, Wire } from '../../parts/part.ts'
import type { Need } from '../../supply/need.ts'
import { copperAPin_m2 } from '../../supply/pins-an-end.ts'
import { cheapestOrNearest, held } from '../pick.ts'

/** Current density that wires are chosen for, A/m². */
const usualDensity_A_per_m2 = 5e6
/** Over this the limit on wire thickness is broken; over twice skin depth the middle of the wire idles. */
const skinLimit = 2.5
const mostInHand = 6
const mostLitzInHand = 4
/** A coil takes no more in hand; the current that they are chosen for is the most that a supply may ask of them. */
const mostAsked = 16

/** Wires in hand that carry a current, as the design chooses them. */
const handsFor = (wire: Wire, rms_A: number): number =>
  Math.max(1, Math.ceil(rms_A / (usualDensity_A_per_m2 * copperArea_m2(wire)) - 0.1))

/**
 * Wires for a current: of each count in hand the thinnest that needs no more, and the thinnest litz for one in hand;
 * fewest in hand first, none thicker than the skin depth allows or than a pin takes. All of them where there are few. `short` tells
 * whether wires were left out.
 */
export function wiresFor(
  wires: readonly Wire[],
  rms_A: number,
  frequency_Hz: number,
  most: number,
): { readonly wires: readonly Wire[]; readonly short: boolean } {
  const skin_m = copperSkinDepth_m(frequency_Hz, 100)
  const able = wires.filter(
    (w) =>
      w.construction !== 'foil' &&
      conductorSize_m(w) <= skinLimit * skin_m &&
      copperArea_m2(w) <= copperAPin_m2 &&
      handsFor(w, rms_A) <= mostAsked,
  )
  const distinct = able.filter(
    (w) => !able.some((o) => o !== w && sameCopper(o, w) && wireHeight_m(o) < wireHeight_m(w)),
  )
  if (distinct.length <= most) return { wires: distinct, short: false }
  const byHands = new Map<string, Wire>()
  for (const wire of distinct) {
    const hands = handsFor(wire, rms_A)
    if (hands > (wire.construction === 'litz' ? mostLitzInHand : mostInHand)) continue
    const key = `${wire.construction === 'litz' ? 'litz' : 'solid'} ${hands}`
    const before = byHands.get(key)
    if (!before || copperArea_m2(wire) < copperArea_m2(before)) byHands.set(key, wire)
  }
  // Solid and stranded take turns, each from the fewest in hand.
  const ranked = (stranded: boolean): Wire[] =>
    [...byHands.values()]
      .filter((w) => (w.construction === 'litz') === stranded)
      .sort((a, b) => handsFor(a, rms_A) - handsFor(b, rms_A))
  const [solid, litz] = [ranked(false), ranked(true)]
  const chosen = Array.from({ length: Math.max(solid.length, litz.length) }, (_, i) => [
    ...solid.slice(2 * i, 2 * i + 1),
    ...litz.slice(i, i + 1),
    ...solid.slice(2 * i + 1, 2 * i + 2),
  ]).flat()
  return { wires: (chosen.length > 0 ? chosen : distinct).slice(0, most), short: true }
}

const sameCopper = (a: Wire, b: Wire): boolean =>
  a.construction === b.construction &&
  conductorSize_m(a) === conductorSize_m(b) &&
  copperArea_m2(a) === copperArea_m2(b)

/** Triple-insulated wires that carry the insulation asked for. */
export const insulatedWires = (need: Need, drawer: Drawer): Wire[] =>
  held(drawer, 'wire').filter(
    (w) =>
      w.construction === 'triple-insulated' && (w.insulation === 'reinforced' || need.insulation === 'basic'),
  )

/** Enamelled and stranded wires. */
export const plainWires = (drawer: Drawer): Wire[] =>
  held(drawer, 'wire').filter((w) => w.construction === 'enamelled' || w.construction === 'litz')

/** The wire that carries the current in the fewest hands without being thicker than the skin effect allows. */
export function wireFor(wires: readonly Wire[], rms_A: number, thickest_m: number): Wire {
  const wanted_m2 = rms_A / usualDensity_A_per_m2
  return cheapestOrNearest(
    wires.filter((w) => w.construction !== 'foil' && w.construction !== 'litz'),
    (w) => conductorSize_m(w) <= thickest_m,
    (w) => {
      const hands = Math.max(1, Math.ceil(wanted_m2 / copperArea_m2(w) - 0.1))
      return hands * 10 + (hands * copperArea_m2(w)) / wanted_m2 + ('grade' in w ? w.grade * 0.1 : 0)
    },
    (w) => -conductorSize_m(w),
  )!
}
