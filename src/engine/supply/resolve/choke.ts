import {
  chokeInductance,
  type RingWinding,
  ringGeometry,
  turnsForInductance,
  windingResistance,
  windRing,
} from '../../magnetics/choke/index.ts'
import { copperArea_m2 } from '../../magnetics/wire/index.ts'
import type { Toroid } from '../../parts/part.ts'
import type { Build } from '../build.ts'
import type { PartsUsed } from '../design.ts'
import type { Need } from '../need.ts'
import { type Result, succeed } from '../result.ts'

/** The output choke as wound. */
export interface Choke {
  readonly turns: number
  readonly inHand: number
  readonly winding: RingWinding
  readonly resistance20_ohm: number
  readonly ring: Toroid
  readonly path_m: number
}

/** Inductance of a choke under a DC current, H. */
export const chokeInductance_H = (c: Choke, current_A: number): number =>
  chokeInductance(c.ring, { length_m: c.path_m }, c.turns, current_A)

/** Corner of choke and second capacitor as a part of the switching frequency. */
const cornerShare = 1 / 15
const least_H = 2e-6
const most_H = 10e-6
const usualDensity_A_per_m2 = 5.5e6
const tails_m = 0.06

/**
 * Chooses turns and wires of the choke where left open: enough inductance at full load that choke and second
 * capacitor turn over well below the switching frequency, between 2 and 10 µH. Null where there is no choke.
 */
export function chooseChoke(
  need: Need,
  build: Build,
  parts: PartsUsed,
  frequency_Hz: number,
): Result<Choke | null> {
  const { choke: ring, chokeWire: wire, secondCapacitor } = parts
  if (!ring || !wire) return succeed(null)
  const geometry = ringGeometry(ring)
  if (!geometry.ok) return inPlace('places.choke', geometry)
  const second_F = (secondCapacitor?.capacitance_F ?? 100e-6) * build.secondCount
  const corner = 2 * Math.PI * cornerShare * frequency_Hz
  const wanted_H = Math.min(most_H, Math.max(least_H, 1 / (corner * corner * second_F)))
  let turns = build.chokeTurns
  if (turns === null) {
    const wanted = turnsForInductance(ring, geometry.value, wanted_H, need.output_A)
    const found = wanted.ok ? wanted : turnsForInductance(ring, geometry.value, least_H, need.output_A)
    if (!found.ok) return inPlace('places.choke', found)
    turns = found.value
  }
  const inHand =
    build.chokeInHand ??
    Math.max(1, Math.min(10, Math.round(need.output_A / (usualDensity_A_per_m2 * copperArea_m2(wire)))))
  const winding = windRing(ring, wire, turns, inHand)
  if (!winding.ok) return inPlace('chokeTurns', winding)
  return succeed({
    turns,
    inHand,
    winding: winding.value,
    resistance20_ohm: windingResistance(winding.value, wire, inHand, tails_m, 20),
    ring,
    path_m: geometry.value.length_m,
  })
}

const inPlace = (
  path: string,
  failure: { readonly problems: readonly { readonly message: string }[] },
): Result<never> => ({
  ok: false,
  problems: failure.problems.map((p) => ({ path: `build.${path}`, message: p.message })),
})
