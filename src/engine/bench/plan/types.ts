import type { Unit } from '../../quantity/index.ts'
import type { AsBuiltField } from '../../supply/bench-log.ts'
import type { Spot } from '../../supply/refs.ts'
import type { InstrumentId } from '../instruments.ts'

/** Stages of a power-up, in order; `smaller-chip` only where there is one. */
export const stageIds = [
  'cold',
  'transformer',
  'low-energy',
  'smaller-chip',
  'lamp',
  'lamp-load',
  'line-0',
  'line-10',
  'line-50',
  'line-90',
  'line-100',
  'short',
  'soak',
  'sign-off',
] as const
export type StageId = (typeof stageIds)[number]

/** One way to take a reading. */
export interface Way {
  /** All of them are needed. */
  readonly instruments: readonly InstrumentId[]
  readonly how: string
  /** Why this way puts no earthed clip on live parts; null where nothing is live. */
  readonly isolation: string | null
  /** Rougher than the usual way. */
  readonly substitute: boolean
}

/** How the builder takes a reading with the instruments at hand. */
export type Chosen =
  | { readonly state: 'doable' | 'substitute'; readonly way: Way }
  | { readonly state: 'skipped'; readonly risk: string; readonly wouldNeed: readonly InstrumentId[] }

/** Probe points: the reading is between `at` and `reference`. */
export interface Probe {
  readonly at: string
  readonly reference: string
}

/** Settings of an oscilloscope for one picture. */
export interface ScopeSettings {
  readonly perDivision_V: number
  readonly perDivision_s: number
  /** Least voltage that probe and input must stand. */
  readonly probe_V: number
}

/** A number expected, with its band; SI units. */
export interface Expected {
  /** Null where only the other end counts. */
  readonly low: number | null
  readonly typical: number
  readonly high: number | null
  readonly unit: Unit
  /** What the band is made of. */
  readonly why: string
}

/** What one can see, hear or count instead of a number. */
export interface ExpectedState {
  readonly expect: string
  /** All answers, with the words for them; the first is the expected one. */
  readonly answers: readonly { readonly id: string; readonly label: string }[]
}

export interface StopRule {
  /** Switch off at once below or above; null where there is no such end. */
  readonly below: number | null
  readonly above: number | null
  /** Answers at which to switch off; any but the expected one where it is left out. */
  readonly answers?: readonly string[]
  readonly text: string
}

/** One reading of the plan. Its `id` is stable over supplies and is the `check` of the bench log. */
export interface Check {
  readonly id: string
  readonly stage: StageId
  readonly what: string
  readonly spot: Spot
  readonly side: 'primary' | 'secondary' | 'mains' | 'across the barrier' | 'transformer'
  /** True where mains is connected while reading. */
  readonly live: boolean
  readonly probe: Probe | null
  readonly ways: readonly Way[]
  readonly chosen: Chosen
  readonly expected: Expected | null
  readonly state: ExpectedState | null
  readonly scope: ScopeSettings | null
  readonly stop: StopRule | null
  readonly suspectLow: string
  readonly suspectHigh: string
  /** Reading to be kept as built. */
  readonly asBuilt: AsBuiltField | null
}

export interface Stage {
  readonly id: StageId
  readonly title: string
  readonly purpose: string
  readonly live: boolean
  readonly setUp: readonly string[]
  readonly cautions: readonly string[]
  readonly checks: readonly Check[]
  /** When to switch off, whatever the checks say. */
  readonly stops: readonly string[]
  /** Stages to be ticked before this one unlocks. */
  readonly after: readonly StageId[]
  /** What to do before the next stage; discharge where it was live. */
  readonly leave: string
}

/** What the series lamp will do with this supply. */
export interface LampForecast {
  readonly power_W: number
  readonly voltage_V: number
  /** False where no lamp at hand suits and this one has to be found. */
  readonly atHand: boolean
  readonly choice: string
  /** Hottest the filament gets in the first charge, and how long it glows. */
  readonly flash_K: number
  readonly flash_s: number
  readonly flash: string
  readonly idle: string
  readonly idleBulk_V: number
  readonly shortCurrent_Arms: number
  /** Part of full load at which the lamp takes over and the bulk sags away; 1 when it does not within full load. */
  readonly takeOver: number
  readonly takeOverGlow: string
  readonly note: string
}

/** What a smaller switcher of the same family can do with this transformer. */
export interface SmallerForecast {
  readonly name: string
  readonly output_W: number
  /** Part of full load at which it folds, at the nominal input. */
  readonly folds: number
  readonly peakFlux_T: number
  readonly text: string
}

/** Staged power-up of one supply. */
export interface Plan {
  readonly title: string
  readonly stages: readonly Stage[]
  /** Readings that are only taken when something is wrong; the fault finder asks for them. */
  readonly inTrouble: readonly Check[]
  readonly lamp: LampForecast
  readonly smaller: SmallerForecast | null
  readonly startInput_V: number
  /** Why no power may come at all: the reasons for which the transformer as measured is rejected. Empty when it is not. */
  readonly doNotPower: readonly string[]
  /** Cautions that hold throughout. */
  readonly cautions: readonly string[]
  /** Checks that cannot be done with what is owned, with their risk. */
  readonly skipped: readonly { readonly check: string; readonly what: string; readonly risk: string }[]
}
