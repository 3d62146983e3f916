import type { Dimensions, Shape } from '../core/index.ts'
import type { GapPlace } from '../gap/index.ts'

/** How far the builder's instruments may be off. */
export interface MeterAccuracy {
  /** Relative, of the inductance meter at the frequency used. */
  readonly inductance: number
  /** Relative, of the resistance reading, leads taken off. */
  readonly resistance: number
  readonly calliper_m: number
}

/** A figure and how far it may be off, relative (about two standard deviations). */
export interface Estimate {
  readonly value: number
  readonly uncertainty: number
}

/** What was measured on a core from the drawer with a few turns on it. */
export interface CoreReadings {
  readonly shape: Shape
  readonly dimensions: Dimensions
  readonly turns: number
  /** Halves clamped together as found, nothing between them. */
  readonly ungapped_H: number
  /** The same winding with a film of known thickness under all legs, or a cut of known width. */
  readonly gapped?: { readonly inductance_H: number; readonly place: GapPlace; readonly gap_m: number }
  readonly accuracy: MeterAccuracy
}

/** Root of the sum of squares of independent relative uncertainties. */
export const together = (...relative: readonly number[]) => Math.hypot(...relative)
