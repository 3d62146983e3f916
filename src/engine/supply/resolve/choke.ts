import { copperArea_m2, dcResistance_ohm_per_m, wireHeight_m } from '../../magnetics/wire/index.ts'
import type { Toroid, Wire } from '../../parts/part.ts'
import type { Build } from '../build.ts'
import type { PartsUsed } from '../design.ts'
import type { Need } from '../need.ts'

/** The output choke as wound. */
export interface Choke {
  readonly turns: number
  readonly inHand: number
  readonly resistance20_ohm: number
  readonly inductance_H: (current_A: number) => number
  readonly fill: number
}

/** Corner of choke and second capacitor as a part of the switching frequency. */
const cornerShare = 1 / 15
const usualDensity_A_per_m2 = 5.5e6

/**
 * Chooses turns and wires of the choke where left open: enough inductance at full load that choke and second
 * capacitor turn over well below the switching frequency, between 2 and 10 µH.
 */
export function chooseChoke(need: Need, build: Build, parts: PartsUsed, frequency_Hz: number): Choke | null {
  const { choke: ring, chokeWire: wire, secondCapacitor } = parts
  if (!ring || !wire) return null
  const second_F = (secondCapacitor?.capacitance_F ?? 100e-6) * build.secondCount
  const corner = 2 * Math.PI * cornerShare * frequency_Hz
  const wanted_H = Math.min(10e-6, Math.max(2e-6, 1 / (corner * corner * second_F)))
  let turns = build.chokeTurns ?? 0
  if (turns === 0) {
    turns = Math.max(1, Math.ceil(Math.sqrt(wanted_H / ring.inductanceFactor_H)))
    while (turns < 60 && inductanceAt(ring, turns, need.output_A) < wanted_H) turns++
  }
  const inHand =
    build.chokeInHand ??
    Math.max(1, Math.min(10, Math.round(need.output_A / (usualDensity_A_per_m2 * copperArea_m2(wire)))))
  const perTurn_m = ring.outer_m - ring.inner_m + 2 * ring.height_m + 4 * wireHeight_m(wire)
  return {
    turns,
    inHand,
    resistance20_ohm: ((turns * perTurn_m + 0.04) * dcResistance_ohm_per_m(wire, 20)) / inHand,
    inductance_H: (current_A) => inductanceAt(ring, turns, current_A),
    fill: ringFill(ring, wire, turns * inHand),
  }
}

/** AL N² times what the DC field leaves of the permeability, H. */
function inductanceAt(ring: Toroid, turns: number, current_A: number): number {
  const path_m = (Math.PI * (ring.outer_m + ring.inner_m)) / 2
  return ring.inductanceFactor_H * turns * turns * fractionLeft(ring, (turns * current_A) / path_m)
}

function fractionLeft(ring: Toroid, field_A_per_m: number): number {
  const curve = ring.biasCurve
  for (let i = 1; i < curve.length; i++) {
    const a = curve[i - 1]!
    const b = curve[i]!
    if (field_A_per_m <= b.field_A_per_m) {
      const share = (field_A_per_m - a.field_A_per_m) / (b.field_A_per_m - a.field_A_per_m)
      return a.fraction + Math.max(0, share) * (b.fraction - a.fraction)
    }
  }
  // Beyond the curve it goes on falling in proportion to the field.
  const last = curve.at(-1)!
  return Math.max(0.01, (last.fraction * last.field_A_per_m) / field_A_per_m)
}

/** Wires over what one layer along the hole holds. */
const ringFill = (ring: Toroid, wire: Wire, wires: number): number =>
  wires / Math.max(1, Math.floor((Math.PI * (ring.inner_m - wireHeight_m(wire))) / wireHeight_m(wire)))
