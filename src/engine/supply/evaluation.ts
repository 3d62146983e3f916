import type { Condition, ConditionId } from './condition.ts'
import type { Design } from './design.ts'
import type { FixedReadings, ReadingKey, Readings } from './reading.ts'

/** How the primary current runs: skipping pulses, falling to zero in each cycle, or never falling to zero. */
export type Mode = 'skip' | 'discontinuous' | 'continuous'

/** Everything read at one condition at which the supply runs. */
export interface Running {
  readonly condition: Condition
  readonly runs: true
  readonly mode: Mode
  readonly readings: Readings
}

/** A condition at which it does not run, and why. */
export interface NotRunning {
  readonly condition: Condition
  readonly runs: false
  readonly reason: string
}

export type ConditionReadings = Running | NotRunning

/** A design read at every condition. */
export interface Evaluation {
  readonly design: Design
  readonly fixed: FixedReadings
  /** In the order of `conditions`. */
  readonly conditions: readonly ConditionReadings[]
  /** Which depth of answer this is. */
  readonly depth: 'closed form'
}

/** The readings at one condition, or null where the supply does not run there. */
export function at(evaluation: Evaluation, id: ConditionId): Running | null {
  const found = evaluation.conditions.find((c) => c.condition.id === id)
  return found?.runs ? found : null
}

/** The running condition at which a reading is greatest; null where none runs. */
export const greatest = (evaluation: Evaluation, key: ReadingKey): Running | null =>
  extreme(evaluation, (a, b) => b.readings[key] > a.readings[key])

/** The running condition at which a reading is least; null where none runs. */
export const least = (evaluation: Evaluation, key: ReadingKey): Running | null =>
  extreme(evaluation, (a, b) => b.readings[key] < a.readings[key])

function extreme(evaluation: Evaluation, better: (a: Running, b: Running) => boolean): Running | null {
  let best: Running | null = null
  for (const c of evaluation.conditions) if (c.runs && (best === null || better(best, c))) best = c
  return best
}

/** The mode of one condition in words, for instance `continuous, 0.34 A to 0.85 A in each cycle`. */
export function modeInWords({ mode, readings }: Running): string {
  const amps = (value: number): string => `${Number(value.toPrecision(3))} A`
  if (mode === 'continuous')
    return `continuous, ${amps(readings.primaryValley_A)} to ${amps(readings.primaryPeak_A)} in each cycle`
  if (mode === 'discontinuous') return `discontinuous, 0 to ${amps(readings.primaryPeak_A)} in each cycle`
  return `skips pulses, about ${Number((readings.frequency_Hz / 1000).toPrecision(2))} thousand a second of ${amps(readings.primaryPeak_A)}`
}
