import type { ConditionId } from '../supply/condition.ts'
import type { Spot } from '../supply/refs.ts'

/**
 * One reading against what it may be, at the condition where it is worst.
 * `rating`: a part's own rating. `rule`: good practice of the trade. `need`: what was asked of the supply.
 */
export interface Limit {
  /** Stable name, for instance `switcher.drain-voltage`. */
  readonly id: string
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
  /** Where it is worst; null when the reading does not depend on the condition. */
  readonly condition: ConditionId | null
  /** What happens beyond it. */
  readonly why: string
  /** What would give more room. */
  readonly raise: string
  /** Relative uncertainty of the reading at this depth, from part tolerances and the relation used. */
  readonly band: number
}
