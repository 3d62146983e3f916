import type { Toroid, Wire } from '../../parts/part.ts'
import { fail, millimetres, type Result, succeed } from '../core/result.ts'
import { dcResistance_ohm_per_m, wireWidth_m } from '../wire/index.ts'

export interface RingWinding {
  /** Turns through the hole, layer by layer from the ring inward. */
  readonly layers: readonly number[]
  /** Hole left open after winding: the shuttle or the needle must pass it. */
  readonly holeLeft_m: number
  /** Wire through the hole over the area of the hole. */
  readonly fill: number
  /** Length of each wire in hand, tails left out. */
  readonly length_m: number
}

/** Wires that lie side by side on a circle of radius `radius_m` through their centres. */
const aroundHole = (radius_m: number, wire_m: number) =>
  wire_m >= 2 * radius_m ? 0 : Math.floor(Math.PI / Math.asin(wire_m / (2 * radius_m)) + 1e-9)

/**
 * Lays turns into the hole of a ring, layer upon layer inward, and takes the length of each turn at its layer.
 * Every turn is `inHand` wires side by side.
 * Errors: foil; turns or wires in hand below 1; a hole too small, with the turns that do go in.
 */
export function windRing(
  ring: Pick<Toroid, 'outer_m' | 'inner_m' | 'height_m'>,
  wire: Wire,
  turns: number,
  inHand: number,
): Result<RingWinding> {
  if (wire.construction === 'foil') return fail('wire', 'foil cannot be wound through a ring')
  if (!(turns >= 1 && Number.isInteger(turns)))
    return fail('turns', `the number of turns is ${turns}, but it must be a whole number of at least 1`)
  if (!(inHand >= 1 && Number.isInteger(inHand)))
    return fail('inHand', `the wires in hand are ${inHand}, but they must be a whole number of at least 1`)
  const wire_m = wireWidth_m(wire)
  const wanted = turns * inHand
  const around_m = ring.outer_m - ring.inner_m + 2 * ring.height_m
  const layers: number[] = []
  let laid = 0
  let length_m = 0
  while (laid < wanted) {
    const offset_m = (layers.length + 0.5) * wire_m
    const fits = aroundHole(ring.inner_m / 2 - offset_m, wire_m)
    if (fits < 1)
      return fail(
        'turns',
        `${turns} turns of ${inHand} × ${millimetres(wire_m)} do not go through the hole of ${millimetres(ring.inner_m)}: ${Math.floor(laid / inHand)} turns fit`,
      )
    const here = Math.min(fits, wanted - laid)
    layers.push(here)
    laid += here
    length_m += here * (around_m + 8 * offset_m)
  }
  return succeed({
    layers,
    holeLeft_m: Math.max(0, ring.inner_m - 2 * layers.length * wire_m),
    fill: (wanted * wire_m ** 2) / ring.inner_m ** 2,
    length_m: length_m / inHand,
  })
}

/** DC resistance of a ring winding with tails, wires in hand in parallel, ohm. */
export const windingResistance = (
  winding: RingWinding,
  wire: Wire,
  inHand: number,
  tails_m: number,
  temperature_C: number,
) => (dcResistance_ohm_per_m(wire, temperature_C) * (winding.length_m + tails_m)) / inHand
