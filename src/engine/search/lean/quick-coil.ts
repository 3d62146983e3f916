import { barrelPerimeter_m, coreLimit_m, turnLength_m, turnsPerLayer } from '../../magnetics/stack/index.ts'
import {
  copperArea_m2,
  dcResistance_ohm_per_m,
  vacuumPermeability_H_per_m,
  wireHeight_m,
  wireInsulation_m,
  wireWidth_m,
} from '../../magnetics/wire/index.ts'
import type { Former, Wire } from '../../parts/part.ts'
import type { Need } from '../../supply/need.ts'
import type { CoreFacts } from '../../supply/resolve/core-facts.ts'
import { marginFor } from '../../supply/resolve/margin.ts'
import type { Turns } from '../../supply/resolve/turns.ts'
import type { StackChoice } from '../space/space.ts'

/** Current density that wires in hand are chosen for, A/m²; as the design chooses them. */
const usualDensity_A_per_m2 = 5e6
/** Wire from coil to pin at each end of each section, as the design counts it. */
const tail_m = 0.04
const squareSide = Math.sqrt(Math.PI) / 2

/** A coil without its field: what it takes up and resists, exactly, and the least leakage that it can have. */
export interface QuickCoil {
  readonly primaryInHand: number
  readonly secondaryInHand: number
  readonly layers: number
  readonly fill: number
  readonly primary20_ohm: number
  readonly secondary20_ohm: number
  readonly leastLeakage_H: number
}

/** What a wire is to a coil, worked out once for each wire. */
interface WireFacts {
  readonly width_m: number
  readonly height_m: number
  readonly area_m2: number
  readonly ohm_per_m: number
  readonly copper_m: number
}

const known = new WeakMap<Wire, WireFacts>()

function factsOf(wire: Wire): WireFacts {
  let facts = known.get(wire)
  if (!facts) {
    facts = {
      width_m: wireWidth_m(wire),
      height_m: wireHeight_m(wire),
      area_m2: copperArea_m2(wire),
      ohm_per_m: dcResistance_ohm_per_m(wire, 20),
      copper_m:
        squareSide *
        (wire.construction === 'litz' ? wireHeight_m(wire) : wireHeight_m(wire) - 2 * wireInsulation_m(wire)),
    }
    known.set(wire, facts)
  }
  return facts
}

const mostLayers = 400
/** Bottom height, height, copper thickness, turns, and winding (0 primary, 1 secondary, 2 bias) of each layer. */
const bottom_m = new Float64Array(mostLayers)
const height_m = new Float64Array(mostLayers)
const copper_m = new Float64Array(mostLayers)
const turnsAt = new Float64Array(mostLayers)
const windingAt = new Uint8Array(mostLayers)

/** Wires in hand as the design chooses them: by current density, no wider than half the former. */
function inHand(wire: WireFacts, rms_A: number, width_m: number, most: number): number {
  const wide = Math.floor(width_m / wire.width_m / 2)
  const wanted = Math.ceil(rms_A / (usualDensity_A_per_m2 * wire.area_m2) - 0.1)
  return Math.max(1, Math.min(most, wide, wanted))
}

/**
 * A coil of the usual stack in a microsecond: heights of layers and tape over the height of the window, resistances
 * from the length of every layer, and as least leakage the even part of the field, 2E = (μ0/h) Σ l ∫F² dx, to which
 * what turns at the ends and wires apart add. Null where it has more layers than any window.
 */
export function quickCoil(
  need: Need,
  former: Former,
  core: CoreFacts,
  tape_m: number,
  turns: Turns,
  stack: StackChoice,
  wires: { readonly primary: Wire; readonly secondary: Wire; readonly bias: Wire },
  tapes: { readonly barrier: number; readonly layer: number; readonly outer: number },
): QuickCoil | null {
  const width_m = former.width_m - 2 * marginFor(need, stack.insulation)
  const primary = factsOf(wires.primary)
  const secondary = factsOf(wires.secondary)
  const bias = factsOf(wires.bias)
  const primaryInHand = inHand(primary, turns.peak_A * 0.52, width_m, 6)
  const secondaryInHand = inHand(secondary, 1.65 * need.output_A, width_m, 12)
  let count = 0
  let top_m = 0

  const wind = (winding: number, wire: WireFacts, hands: number, wanted: number): void => {
    const capacity = turnsPerLayer(width_m, wire.width_m * hands)
    for (let left = wanted, first = true; left > 0 && count < mostLayers; left -= capacity, first = false) {
      if (!first) top_m += tapes.layer * tape_m
      bottom_m[count] = top_m
      height_m[count] = wire.height_m
      copper_m[count] = wire.copper_m
      turnsAt[count] = Math.min(capacity, left)
      windingAt[count] = winding
      top_m += wire.height_m
      count++
    }
  }
  const split = stack.splitPrimary && turns.primary > 1
  const first = split ? Math.ceil(turns.primary / 2) : turns.primary
  wind(0, primary, primaryInHand, first)
  top_m += tapes.barrier * tape_m
  wind(1, secondary, secondaryInHand, turns.secondary)
  if (split) {
    top_m += tapes.barrier * tape_m
    wind(0, primary, primaryInHand, turns.primary - first)
  }
  top_m += (split ? 1 : tapes.barrier) * tape_m
  wind(2, bias, 1, turns.bias)
  top_m += tapes.outer * tape_m
  if (count >= mostLayers) return null

  const perimeter_m = barrelPerimeter_m(former.barrel)
  let primary_m = (split ? 4 : 2) * tail_m
  let secondary_m = 2 * tail_m
  let flat = 0
  let mmf = 0
  let reached_m = 0
  for (let i = 0; i < count; i++) {
    const middle_m = bottom_m[i]! + height_m[i]! / 2
    const turn_m = turnLength_m(perimeter_m, middle_m)
    const winding = windingAt[i]!
    if (winding === 2) continue
    if (winding === 0) primary_m += turnsAt[i]! * turn_m
    else secondary_m += turnsAt[i]! * turn_m
    const low_m = middle_m - copper_m[i]! / 2
    flat += (low_m - reached_m) * mmf * mmf * turnLength_m(perimeter_m, (low_m + reached_m) / 2)
    const next = mmf + (winding === 0 ? turnsAt[i]! / turns.primary : -turnsAt[i]! / turns.secondary)
    flat += (copper_m[i]! / 3) * (mmf * mmf + mmf * next + next * next) * turn_m
    mmf = next
    reached_m = low_m + copper_m[i]!
  }
  return {
    primaryInHand,
    secondaryInHand,
    layers: count,
    fill: top_m / Math.min(former.height_m, coreLimit_m(core.window, former)),
    primary20_ohm: (primary_m * primary.ohm_per_m) / primaryInHand,
    secondary20_ohm: (secondary_m * secondary.ohm_per_m) / secondaryInHand,
    leastLeakage_H:
      (vacuumPermeability_H_per_m * turns.primary * turns.primary * flat) / core.window.height_m,
  }
}
