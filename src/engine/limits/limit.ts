import type { ConditionId } from '../supply/condition.ts'
import type { Spot } from '../supply/refs.ts'

/**
 * One reading against what it may be, at the condition where it is worst.
 * `rating`: a part's own rating. `rule`: good practice of the trade. `need`: what was asked of the supply.
 */
export interface Limit {
  /** Stable name, for instance `switcher.drain-voltage`. */
  readonly id: string
  /** What is limited, as a noun that can be the subject of a sentence. */
  readonly title: string
  readonly spot: Spot
  readonly basis: 'rating' | 'rule' | 'need'
  /** Whether the reading must stay at or below the rating, or at or above it. */
  readonly sense: 'at-most' | 'at-least'
  readonly unit: string
  readonly reading: number
  readonly rating: number
  /**
   * Room left as a fraction of the rating: positive holds, negative does not. For temperatures as a fraction of
   * the rise from ambient to the rating.
   */
  readonly margin: number
  readonly holds: boolean
  /** True for classes and counts: met or not met, and meeting one exactly is not being at the edge. */
  readonly discrete: boolean
  /** Where it is worst; null when the reading does not depend on the condition. */
  readonly condition: ConditionId | null
  /** What happens beyond it. */
  readonly why: string
  /** What would give more room. */
  readonly raise: string
  /** Relative uncertainty of the reading at this depth, from part tolerances and the relation used. */
  readonly band: number
}

/** Where a limit stands among others: its margin, with classes and counts that are met behind every close margin. */
export const rankOf = ({ margin, discrete, holds }: Pick<Limit, 'margin' | 'discrete' | 'holds'>): number =>
  discrete && holds ? 1 + margin : margin

/** Limits in a new list, weakest first. */
export const weakestFirst = (limits: readonly Limit[]): Limit[] =>
  [...limits].sort((a, b) => rankOf(a) - rankOf(b))

/** The room of a limit in words: `12 %` as `percent` writes it, or whether a class or count is met. */
export const roomInWords = (
  { margin, discrete, holds }: Pick<Limit, 'margin' | 'discrete' | 'holds'>,
  percent: (fraction: number) => string,
): string => (discrete ? (holds ? 'met' : 'not met') : percent(margin))
