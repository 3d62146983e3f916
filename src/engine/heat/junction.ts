import { requireBetween } from '../quantity/require.ts'

/** How a package is cooled: standing free, or through a pad on a heatsink. */
export interface Cooling {
  readonly junctionToCase_K_per_W: number
  readonly junctionToAmbient_K_per_W: number
  readonly heatsink: { readonly toAmbient_K_per_W: number } | null
  readonly pad: { readonly resistance_K_per_W: number } | null
}

/** Dry metal to metal with thermal grease, for a package screwed straight to its heatsink; common practice, no source. */
const greasedContact_K_per_W = 0.5

/**
 * Resistance from junction to ambient: free air as the maker states, or case + pad (greased contact of 0.5 K/W where
 * there is none) + heatsink. The free surface of the package beside a heatsink is left out, which errs on the hot side.
 */
export function junctionToAmbient(cooling: Cooling): number {
  requireBetween('junctionToCase_K_per_W', cooling.junctionToCase_K_per_W, 0, 1000, 'K/W')
  requireBetween('junctionToAmbient_K_per_W', cooling.junctionToAmbient_K_per_W, 0, 1000, 'K/W')
  if (cooling.heatsink === null) return cooling.junctionToAmbient_K_per_W
  const contact = cooling.pad === null ? greasedContact_K_per_W : cooling.pad.resistance_K_per_W
  const path = cooling.junctionToCase_K_per_W + contact + cooling.heatsink.toAmbient_K_per_W
  return Math.min(path, cooling.junctionToAmbient_K_per_W)
}

/** Junction temperature: T = Tambient + P R, C. */
export const junctionTemperature = (ambient_C: number, power_W: number, resistance_K_per_W: number): number =>
  ambient_C + power_W * resistance_K_per_W

/** What a thermometer on the case or tab reads: T = Tjunction - P Rjc, C. */
export const caseTemperature = (
  junction_C: number,
  power_W: number,
  junctionToCase_K_per_W: number,
): number => junction_C - power_W * junctionToCase_K_per_W

/** Most power before the junction reaches a temperature, W; zero when the ambient is already there. */
export const mostPower = (limit_C: number, ambient_C: number, resistance_K_per_W: number): number =>
  Math.max(0, limit_C - ambient_C) / resistance_K_per_W
