import {
  newRise,
  type RisePath,
  type RiseRecord,
  type RiseResponse,
  riseResponse,
} from '../../converter/rise.ts'
import type { Spread } from '../../quantity/spread.ts'
import type { Build } from '../build.ts'
import type { PartsUsed } from '../design.ts'

/** Least capacitance of a rectifier that is worked with, F. */
export const leastJunction_F = 1e-12

/** What rises at turn-off, with rectifier and snubber as the primary sees them. */
export function risePath(
  leakage_H: number,
  drain_F: number,
  rectifier: PartsUsed['rectifier'],
  snubber: Build['snubber'],
  turnsRatio: number,
): RisePath {
  const square = turnsRatio * turnsRatio
  return {
    leakage_H,
    drain_F,
    junction_F: Math.max(leastJunction_F, rectifier.junctionCapacitance_F) / square,
    snubber: snubber && {
      resistor_ohm: snubber.resistor_ohm * square,
      capacitor_F: snubber.capacitor_F / square,
    },
  }
}

/** The rise with typical and with most leakage. */
export interface Rises {
  readonly typical: RiseResponse
  readonly maximum: RiseResponse
}

export const newRises = () => ({ typical: newRise(), maximum: newRise() })

export function risesOf(
  leakage_H: Spread,
  leads_H: number,
  drain_F: number,
  rectifier: PartsUsed['rectifier'],
  snubber: Build['snubber'],
  turnsRatio: number,
  into: { readonly typical: RiseRecord; readonly maximum: RiseRecord } = newRises(),
): Rises {
  const path = risePath(leakage_H.typical + leads_H, drain_F, rectifier, snubber, turnsRatio)
  return {
    typical: riseResponse(path, into.typical),
    maximum: riseResponse({ ...path, leakage_H: leakage_H.maximum + leads_H }, into.maximum),
  }
}
