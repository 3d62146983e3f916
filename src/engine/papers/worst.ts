import type { Limit } from '../limits/limit.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import type { ReadingKey } from '../supply/reading.ts'

/** Greatest reading at any condition at which the supply regulates; NaN, printed as a dash, where it never does. */
export const steadyWorst = (evaluation: Evaluation, key: ReadingKey): number =>
  evaluation.conditions.reduce(
    (worst, c) =>
      c.runs && c.condition.kind === 'steady' && !(c.readings[key] <= worst) ? c.readings[key] : worst,
    Number.NaN,
  )

/** What a limit reads where it is worst, trim and tolerance counted; undefined where it does not apply. */
export const readingOf = (limits: readonly Limit[], id: string): number | undefined =>
  limits.find((limit) => limit.id === id)?.reading
