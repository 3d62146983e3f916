import type { Condition, ConditionId } from './condition.ts'
import type { Design } from './design.ts'
import type { FixedReadings, ReadingKey, Readings } from './reading.ts'

/** How the primary current runs: skipping pulses, falling to zero in each cycle, or never falling to zero. */
export type Mode = 'skip' | 'discontinuous' | 'continuous'

/** Everything read at one condition. */
export interface ConditionReadings {
  readonly condition: Condition
  readonly mode: Mode
  readonly readings: Readings
}

/** A design read at every condition. */
export interface Evaluation {
  readonly design: Design
  readonly fixed: FixedReadings
  /** In the order of `conditions`. */
  readonly conditions: readonly ConditionReadings[]
  /** Which depth of answer this is. */
  readonly depth: 'closed form'
}

/** Readings at one condition. */
export const at = (evaluation: Evaluation, id: ConditionId): ConditionReadings =>
  evaluation.conditions.find((c) => c.condition.id === id)!

/** The condition at which a reading is greatest. */
export const greatest = (evaluation: Evaluation, key: ReadingKey): ConditionReadings =>
  evaluation.conditions.reduce((a, b) => (b.readings[key] > a.readings[key] ? b : a))

/** The condition at which a reading is least. */
export const least = (evaluation: Evaluation, key: ReadingKey): ConditionReadings =>
  evaluation.conditions.reduce((a, b) => (b.readings[key] < a.readings[key] ? b : a))
