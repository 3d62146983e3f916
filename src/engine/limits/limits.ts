import { type ConditionId, conditions } from '../supply/condition.ts'
import type { Design } from '../supply/design.ts'
import { fixedReadings } from '../supply/evaluate/fixed.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { fitted } from '../supply/refs.ts'
import { type Limit, weakestFirst } from './limit.ts'
import type { ConditionRule, FixedRule, Rule } from './rule.ts'
import { clampRules } from './rules/clamp.ts'
import { feedbackRules } from './rules/feedback.ts'
import { insulationRules } from './rules/insulation.ts'
import { mainsRules } from './rules/mains.ts'
import { outputRules } from './rules/output.ts'
import { ratingRules } from './rules/ratings.ts'
import { switcherRules } from './rules/switcher.ts'
import { transformerRules } from './rules/transformer.ts'

const rules: readonly Rule[] = [
  ...switcherRules,
  ...transformerRules,
  ...clampRules,
  ...outputRules,
  ...feedbackRules,
  ...mainsRules,
  ...insulationRules,
  ...ratingRules,
]

/** Every rule with the conditions that it looks at. */
const placed = rules.map((rule) => ({
  rule,
  where: rule.kind === 'fixed' ? [] : conditions.flatMap((c, index) => (rule.where(c) ? [index] : [])),
}))

/** Margins beyond this say nothing more. */
const greatestMargin = 9.99

/** Every rule by its id, for tests and for explaining. */
export const limitIds: readonly string[] = ['supply.runs', ...rules.map((rule) => rule.id)]

/**
 * All limits of an evaluated design, weakest first: each rule at the condition where it has the least margin.
 * The first of the list is what gives first. A condition at which the supply does not run breaks `supply.runs`.
 */
export function limits(evaluation: Evaluation): Limit[] {
  const found: Limit[] = []
  const stopped = evaluation.conditions.find((c) => !c.runs)
  if (stopped) found.push(doesNotRun(stopped.condition.id))
  for (const { rule, where } of placed) {
    if (!rule.applies(evaluation.design)) continue
    const limit = rule.kind === 'fixed' ? ofFixed(rule, evaluation) : worst(rule, where, evaluation)
    if (limit !== null) found.push({ ...limit, spot: fitted(limit.spot, evaluation.design.clamp) })
  }
  return weakestFirst(found)
}

/**
 * Ids of the classes and counts that a design does not meet. They follow from parts and coil alone, so that no condition
 * need be solved.
 */
export function unmetClasses(design: Design): string[] {
  const fixed = fixedReadings(design)
  return classes
    .filter((rule) => rule.applies(design))
    .filter((rule) => {
      const reading = rule.reading(fixed, design)
      return marginOf(rule, reading, rule.rating(design, fixed), 0) < 0
    })
    .map((rule) => rule.id)
}

const classes = rules.filter((rule): rule is FixedRule => rule.kind === 'fixed' && rule.discrete)

/** Room left as a fraction of what the reading is measured against. */
function marginOf(rule: Rule, reading: number, rating: number, base: number): number {
  const span = Math.abs(rating - base)
  const room = rule.sense === 'at-most' ? rating - reading : reading - rating
  if (span < 1e-30) return room >= 0 ? 1 : -1
  return Math.max(-greatestMargin, Math.min(greatestMargin, room / span))
}

function worst(rule: ConditionRule, where: readonly number[], evaluation: Evaluation): Limit | null {
  const { design } = evaluation
  let condition: ConditionId | null = null
  let margin = Number.POSITIVE_INFINITY
  let reading = 0
  let rating = 0
  const base = rule.aboveAmbient ? design.need.ambient_C : 0
  for (const index of where) {
    const c = evaluation.conditions[index]!
    if (!c.runs) continue
    const value = rule.reading(c.readings, design)
    const against = rule.rating(design, c.readings)
    const room = marginOf(rule, value, against, base)
    const further = rule.sense === 'at-most' ? value > reading : value < reading
    // Far beyond a rating every margin reads the same: the worst is then where the reading is furthest beyond.
    if (room < margin || (room === -greatestMargin && further)) {
      margin = room
      condition = c.condition.id
      reading = value
      rating = against
    }
  }
  return condition === null ? null : limitFrom(rule, reading, rating, margin, condition)
}

function ofFixed(rule: FixedRule, { design, fixed }: Evaluation): Limit {
  const reading = rule.reading(fixed, design)
  const rating = rule.rating(design, fixed)
  return limitFrom(rule, reading, rating, marginOf(rule, reading, rating, 0), null)
}

const limitFrom = (
  rule: Rule,
  reading: number,
  rating: number,
  margin: number,
  condition: ConditionId | null,
): Limit => ({
  id: rule.id,
  title: rule.title,
  spot: rule.spot,
  basis: rule.basis,
  sense: rule.sense,
  unit: rule.unit,
  reading,
  rating,
  margin,
  holds: margin >= 0,
  discrete: rule.discrete,
  condition,
  why: rule.why,
  raise: rule.raise,
  band: rule.band,
})

const doesNotRun = (condition: ConditionId): Limit => ({
  id: 'supply.runs',
  title: 'Steady running',
  spot: 'output',
  basis: 'need',
  sense: 'at-least',
  unit: '',
  reading: 0,
  rating: 1,
  margin: -1,
  holds: false,
  discrete: true,
  condition,
  why: 'The bulk voltage collapses between crests, or losses outgrow the power drawn: there is no steady working point.',
  raise: 'A larger bulk capacitor, less leakage, or less load.',
  band: 0,
})
