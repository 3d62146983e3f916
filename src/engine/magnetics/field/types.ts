import type { Band, Slot } from './slot.ts'

/** Current sheets on the walls that close the net ampere-turns: where the gaps are. */
export interface WallGap {
  readonly wall: 'post' | 'outer'
  /** Middle of the gap along the post, from mid-height; negative is below. */
  readonly z_m: number
  readonly length_m: number
  /** Part of the net ampere-turns that drops here. */
  readonly share: number
}

/** Equal conductors at one height: a layer of wire, a foil, or a block with smeared current. */
export interface Row {
  readonly band: number
  readonly winding: number
  /** Middle of each conductor along the post, from mid-height. */
  readonly z_m: Float64Array
  /** Width along the post over which each conductor's current is spread. */
  readonly width_m: number
  /** Current in each conductor for one ampere in the winding, with sign. */
  readonly current: number
}

/** The section of a window: conductors in rows between walls. */
export interface WindowModel {
  readonly slot: Slot
  readonly bands: readonly Band[]
  readonly rows: readonly Row[]
  /** Net ampere-turns of each winding for one ampere. */
  readonly turns: readonly number[]
  readonly gaps: readonly WallGap[]
  /** Axial harmonics kept. */
  readonly harmonics: number
}
