import type { Condition } from '../supply/condition.ts'
import type { Design } from '../supply/design.ts'
import type { FixedReadings, Readings } from '../supply/reading.ts'
import type { Limit } from './limit.ts'

/** Parts of a limit that never change. */
interface Wording {
  readonly id: string
  readonly title: string
  readonly spot: Limit['spot']
  readonly basis: Limit['basis']
  readonly sense: Limit['sense']
  readonly unit: string
  /** Relative uncertainty of the reading. */
  readonly band: number
  /** True for classes and counts: meeting it exactly is not being at the edge. */
  readonly discrete: boolean
  readonly why: string
  readonly raise: string
}

/** A limit on a reading that depends on the condition; the worst condition is reported. */
export interface ConditionRule extends Wording {
  readonly kind: 'condition'
  /** False where the place is empty or the rule has no meaning. */
  readonly applies: (d: Design) => boolean
  readonly where: (c: Condition) => boolean
  readonly reading: (r: Readings, d: Design) => number
  readonly rating: (d: Design, r: Readings) => number
  /** True for temperatures: margin counts from ambient. */
  readonly aboveAmbient: boolean
}

/** A limit on a reading that is the same at every condition. */
export interface FixedRule extends Wording {
  readonly kind: 'fixed'
  readonly applies: (d: Design) => boolean
  readonly reading: (f: FixedReadings, d: Design) => number
  readonly rating: (d: Design, f: FixedReadings) => number
}

export type Rule = ConditionRule | FixedRule

type Common = Omit<Wording, 'sense' | 'band' | 'basis' | 'discrete'> & {
  readonly discrete?: boolean
  readonly sense?: Wording['sense']
  readonly band?: number
  readonly basis?: Wording['basis']
  readonly applies?: (d: Design) => boolean
}

/** How far above its set voltage the output may be trimmed, V. */
export const trimUp_V = ({ need }: Design): number => need.trimHigh_V - need.output_V

const always = () => true

/** A rule over conditions: a rating that the reading must stay below, at 5 % uncertainty, unless told otherwise. */
export const overConditions = (
  rule: Common & Pick<ConditionRule, 'where' | 'reading' | 'rating'> & { readonly aboveAmbient?: boolean },
): ConditionRule => ({
  kind: 'condition',
  sense: 'at-most',
  basis: 'rating',
  band: 0.05,
  discrete: false,
  applies: always,
  aboveAmbient: false,
  ...rule,
})

/** A rule on a fixed reading, with the same usual values. */
export const once = (rule: Common & Pick<FixedRule, 'reading' | 'rating'>): FixedRule => ({
  kind: 'fixed',
  sense: 'at-most',
  basis: 'rating',
  band: 0.05,
  discrete: false,
  applies: always,
  ...rule,
})

/** Conditions that rules look at. */
export const steady = (c: Condition): boolean => c.kind === 'steady'
export const fullLoad = (c: Condition): boolean => c.load === 1
export const anywhere = always
export const whileOutputUp = (c: Condition): boolean => c.kind !== 'short'
