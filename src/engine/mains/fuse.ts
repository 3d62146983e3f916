import { requireBetween } from '../quantity/require.ts'

export interface FuseReading {
  /** Steady rms current over what the fuse may carry for ever at this ambient. */
  readonly currentUse: number
  /** Inrush integral over what the fuse stands repeatedly. */
  readonly pulseUse: number
  /** Prospective short-circuit current over breaking capacity. */
  readonly breakingUse: number
}

/**
 * Loads of a fuse as fractions of what it stands; each should stay below 1.
 *
 * Continuous current at 75 % of the rating (common practice for UL-type ratings, no source) and less by 0.2 % a kelvin
 * above 25 C for a slow fuse, 0.1 % for a fast one (common practice, no source). Repeated inrush at 30 % of the melting
 * integral, which common practice gives for about 10 000 switch-ons (no source).
 */
export function readFuse(
  part: {
    readonly rated_A: number
    readonly speed: 'slow' | 'fast'
    readonly meltingIntegral_A2s: number
    readonly breaking_A: number
  },
  load: {
    readonly current_Arms: number
    readonly inrush_A2s: number
    readonly prospective_A: number
    readonly ambient_C: number
  },
): FuseReading {
  requireBetween('current_Arms', load.current_Arms, 0, 1e4, 'A')
  requireBetween('ambient_C', load.ambient_C, -60, 150, 'C')
  const perKelvin = part.speed === 'slow' ? 0.002 : 0.001
  const warm = Math.max(0.1, 1 - perKelvin * Math.max(0, load.ambient_C - 25))
  return {
    currentUse: load.current_Arms / (0.75 * part.rated_A * warm),
    pulseUse: load.inrush_A2s / (0.3 * part.meltingIntegral_A2s),
    breakingUse: load.prospective_A / part.breaking_A,
  }
}
