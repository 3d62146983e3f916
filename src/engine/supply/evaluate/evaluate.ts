import { type Condition, conditions } from '../condition.ts'
import type { Design } from '../design.ts'
import type { ConditionReadings, Evaluation, Mode } from '../evaluation.ts'
import type { Readings } from '../reading.ts'
import { fixedReadings } from './fixed.ts'
import { type Operation, operate } from './operate.ts'
import type { Plant } from './plant.ts'
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
  for (const index of order) {
    const condition = conditions[index]!
    if (condition.kind === 'short') {
      const idle = results[idleAt]!
      results[index] = idle.runs
        ? { condition, runs: true, mode: 'continuous', readings: readShort(plant, idle.readings) }
        : { condition, runs: false, reason: idle.reason }
      continue
    }
    results[index] = readOne(design, plant, condition, fullLoad(results, condition))
  }
  return { design, fixed: fixedReadings(design), conditions: results, depth: 'closed form' }
}

function fullLoad(results: readonly ConditionReadings[], c: Condition): Readings | null {
  if (c.corner !== 'typical' || c.load === null || c.load >= 1) return null
  const full = results[fullLoadAt[c.input]]!
  return full.runs ? full.readings : null
}

function readOne(d: Design, p: Plant, condition: Condition, full: Readings | null): ConditionReadings {
  const operation = operate(p, condition, guess(full, condition))
  if (operation === null)
    return {
      condition,
      runs: false,
      reason:
        'the supply does not run here: the bulk voltage collapses between crests, or losses outgrow the power drawn',
    }
  return {
    condition,
    runs: true,
    mode: modeOf(operation),
    readings: readCondition(d, p, condition, operation, full),
  }
}

/** Power drawn at a part of the load, from that at full load and the same input: a third of the losses stay. */
function guess(full: Readings | null, c: Condition): number | null {
  if (full === null || c.load === null) return null
  const loss_W = full.input_W - full.output_W
  return c.load * full.output_W + (0.15 + 0.7 * c.load) * loss_W
}

const modeOf = (o: Operation): Mode => o.valley.mode
