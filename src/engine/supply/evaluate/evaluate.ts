import { type Condition, conditions } from '../condition.ts'
import type { Design } from '../design.ts'
import type { ConditionReadings, Evaluation } from '../evaluation.ts'
import type { Readings } from '../reading.ts'
import { fixedReadings } from './fixed.ts'
import type { InputSide } from './input-side.ts'
import { operate } from './operate.ts'
import { plantOf } from './plant-of.ts'
import { readCondition } from './read-condition.ts'
import { readShort } from './read-short.ts'

/** Index of the full-load condition of each input among `conditions`. */
const fullLoadAt = {
  minimum: conditions.findIndex((c) => c.id === 'minimum-100'),
  nominal: conditions.findIndex((c) => c.id === 'nominal-100'),
  maximum: conditions.findIndex((c) => c.id === 'maximum-100'),
}
const idleAt = conditions.findIndex((c) => c.id === 'maximum-0')
/** Full load first: light loads take their power ceiling from it. */
const order = conditions
  .map((_, index) => index)
  .sort((a, b) => (conditions[b]!.load ?? -1) - (conditions[a]!.load ?? -1))

/**
 * Reads a design at every condition, in closed form. A condition at which the supply does not run (the bulk
 * collapses, or losses outgrow the power drawn) has `runs: false` and no readings.
 */
export function evaluate(design: Design): Evaluation {
  const plant = plantOf(design)
  const results: ConditionReadings[] = new Array(conditions.length)
  const sides: Partial<Record<Condition['input'], InputSide>> = {}
  for (const index of order) {
    const condition = conditions[index]!
    if (condition.kind === 'short') {
      const idle = results[idleAt]!
      results[index] = idle.runs
        ? { condition, runs: true, mode: 'continuous', readings: readShort(plant, idle.readings) }
        : { condition, runs: false, reason: idle.reason }
      continue
    }
    const full = fullLoad(results, condition)
    const near = condition.corner === 'flux' ? (sides[condition.input] ?? null) : null
    const operation = operate(plant, condition, guess(full, condition), near)
    if (operation === null) {
      results[index] = { condition, runs: false, reason: stopped }
      continue
    }
    if (index === fullLoadAt[condition.input]) sides[condition.input] = operation.input
    results[index] = {
      condition,
      runs: true,
      mode: operation.valley.mode,
      readings: readCondition(design, plant, condition, operation, condition.load === 1 ? null : full),
    }
  }
  return { design, fixed: fixedReadings(design), conditions: results, depth: 'closed form' }
}

const stopped =
  'the supply does not run here: the bulk voltage collapses between crests, or losses outgrow the power drawn'

/** Readings at full load and the same input, for conditions that are near it or take their power ceiling from it. */
function fullLoad(results: readonly ConditionReadings[], c: Condition): Readings | null {
  if (c.load === null || c.corner === 'power') return null
  const full = results[fullLoadAt[c.input]]
  return full?.runs ? full.readings : null
}

/** Power drawn at a part of the load, from that at full load and the same input: a seventh of the losses stay. */
function guess(full: Readings | null, c: Condition): number | null {
  if (full === null || c.load === null) return null
  const loss_W = full.input_W - full.output_W
  return c.load * full.output_W + (0.15 + 0.7 * c.load) * loss_W
}
