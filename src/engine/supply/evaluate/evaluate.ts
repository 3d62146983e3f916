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
  const last: Partial<Record<Condition['input'], InputSide>> = {}
  const trails: Record<Condition['input'], Point[]> = { minimum: [], nominal: [], maximum: [] }
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
    const trail = trails[condition.input]
    const like = last[condition.input] ?? null
    const operation = operate(plant, condition, guess_W(trail, condition), near, like)
    if (operation === null) {
      results[index] = { condition, runs: false, reason: condition.kind === 'overload' ? hiccups : stopped }
      continue
    }
    last[condition.input] = operation.input
    if (index === fullLoadAt[condition.input]) sides[condition.input] = operation.input
    if (condition.corner === 'typical' && condition.load !== null)
      trail.push({ load: condition.load, stage_W: operation.stage_W })
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

const hiccups =
  'at its current limit the stage draws more than the bulk carries: it sags until the chip stops and tries again'

/** Readings at full load and the same input, for conditions that are near it or take their power ceiling from it. */
function fullLoad(results: readonly ConditionReadings[], c: Condition): Readings | null {
  if (c.load === null || c.corner === 'power') return null
  const full = results[fullLoadAt[c.input]]
  return full?.runs ? full.readings : null
}

/** Power drawn at a load, of the conditions solved so far at one input. */
interface Point {
  readonly load: number
  readonly stage_W: number
}

/** Power drawn at another load: in a line through the last two found; nearly in proportion to the only one. */
function guess_W(trail: readonly Point[], c: Condition): number | null {
  const last = trail.at(-1)
  if (!last || c.load === null || c.corner === 'power') return null
  const before = trail.at(-2)
  if (!before) return last.stage_W * (0.03 + 0.97 * (c.load / last.load))
  const slope = (before.stage_W - last.stage_W) / (before.load - last.load)
  return Math.max(0.02 * before.stage_W, last.stage_W + slope * (c.load - last.load))
}
