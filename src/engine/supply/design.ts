import type { Spread } from '../quantity/spread.ts'
import type { Place, StackItem } from './build.ts'
import type { Need } from './need.ts'
import type { Choke } from './resolve/choke.ts'
import type { Coil } from './resolve/coil.ts'
import type { CoreFacts } from './resolve/core-facts.ts'
import type { FerriteFacts } from './resolve/ferrite.ts'
import type { PartAt, Supply } from './supply.ts'

type OptionalPlace =
  | 'spacerFilm'
  | 'clampAvalanche'
  | 'bridge'
  | 'ntc'
  | 'fuse'
  | 'varistor'
  | 'xCapacitor'
  | 'commonModeChoke'
  | 'yCapacitor'
  | 'choke'
  | 'chokeWire'
  | 'secondCapacitor'
  | 'trimmer'
  | 'indicator'
  | 'switcherHeatsink'
  | 'switcherPad'
  | 'rectifierHeatsink'
  | 'rectifierPad'

/** The part in every place; null where an optional place is empty. */
export type PartsUsed = {
  readonly [P in Place]: P extends OptionalPlace ? PartAt<P> | null : PartAt<P>
}

/** Free choices of a build which the tool makes when the builder leaves them open. */
export const choiceNames = [
  'reflectedVoltage_V',
  'rippleRatio',
  'primaryTurns',
  'secondaryTurns',
  'biasTurns',
  'biasVoltage_V',
  'gap_m',
  'primaryInHand',
  'secondaryInHand',
  'biasInHand',
  'margin_m',
  'stack',
  'clampVoltage_V',
  'clampResistor_ohm',
  'clampCapacitor_F',
  'dividerTop_ohm',
  'dividerBottom_ohm',
  'ledResistor_ohm',
  'biasResistor_ohm',
  'compensationResistor_ohm',
  'compensationCapacitor_F',
  'highFrequencyCapacitor_F',
  'softFinishCapacitor_F',
  'chokeTurns',
  'chokeInHand',
  'bleed_ohm',
  'indicatorResistor_ohm',
] as const
export type ChoiceName = (typeof choiceNames)[number]

/** The transformer with every number settled. Inductances are the measured ones where the bench has read them. */
export interface TransformerDesign {
  readonly primaryTurns: number
  readonly secondaryTurns: number
  readonly biasTurns: number
  /** Primary turns over secondary turns. */
  readonly turnsRatio: number
  /** What the primary sees while the rectifier conducts, from whole turns, at full load. */
  readonly reflectedVoltage_V: number
  /** What was aimed at before turns were rounded. */
  readonly aimedReflectedVoltage_V: number
  readonly rippleRatio: number
  readonly gapPlace: 'post' | 'all-legs'
  /** Cut in the post, or thickness of the spacer under every leg. */
  readonly gap_m: number
  /** Gap that the aimed inductance asks for in the same place, whatever `gap_m` is. */
  readonly aimedGap_m: number
  readonly aimedInductance_H: number
  /** Inductance that the gap gives by calculation, before anything is measured. */
  readonly plannedInductance_H: Spread
  /** Used downstream: planned, or measured with the meter's accuracy. */
  readonly primaryInductance_H: Spread
  readonly inductanceFactor_H: number
  readonly plannedLeakage_H: Spread
  readonly leakage_H: Spread
  readonly primaryInHand: number
  readonly secondaryInHand: number
  readonly biasInHand: number
  readonly margin_m: number
  readonly stack: readonly StackItem[]
  /** The coil as laid out: layers, lengths, heights, resistances at 20 °C, and what it does to the circuit. */
  readonly coil: Coil
  /** Used downstream: of the coil, or measured. At 20 °C. */
  readonly primaryResistance20_ohm: number
  readonly secondaryResistance20_ohm: number
  readonly biasResistance20_ohm: number
  readonly measured: {
    readonly primaryInductance: boolean
    readonly leakage: boolean
    readonly primaryResistance: boolean
    readonly secondaryResistance: boolean
    readonly biasResistance: boolean
  }
}

export interface ClampDesign {
  readonly style: 'resistor-capacitor' | 'avalanche'
  /** Clamp voltage above the bulk at full load and lowest input that the values were chosen for. */
  readonly voltage_V: number
  readonly resistor_ohm: number
  readonly capacitor_F: number
}

/** Compensation that was left open is suited to the loop when it is first read, which takes milliseconds. */
export interface FeedbackDesign {
  readonly dividerTop_ohm: number
  readonly dividerBottom_ohm: number
  readonly ledResistor_ohm: number
  /** Least LED resistor that keeps LED and reference inside their current ratings. */
  readonly ledResistorMinimum_ohm: number
  /** Greatest LED resistor that still turns the supply fully down at the least transfer ratio. */
  readonly ledResistorMaximum_ohm: number
  readonly biasResistor_ohm: number
  readonly biasResistorMaximum_ohm: number
  readonly compensationResistor_ohm: number
  readonly compensationCapacitor_F: number
  readonly highFrequencyCapacitor_F: number
  readonly softFinishCapacitor_F: number
  readonly senseAfterChoke: boolean
  readonly ledFeedAfterChoke: boolean
}

/**
 * A supply with every open choice settled: every `null` of its build has a number here. `chosen` tells which of
 * them the tool settled.
 */
export interface Design {
  readonly supply: Supply
  readonly need: Need
  readonly parts: PartsUsed
  readonly transformer: TransformerDesign
  readonly biasVoltage_V: number
  readonly clamp: ClampDesign
  readonly feedback: FeedbackDesign
  readonly core: CoreFacts
  readonly ferrite: FerriteFacts
  /** Null where there is no choke. */
  readonly choke: Choke | null
  /** 0 where there is no choke. */
  readonly chokeTurns: number
  readonly chokeInHand: number
  /** Across the X capacitor; 0 where there is none. */
  readonly bleed_ohm: number
  /** 0 where there is no indicator. */
  readonly indicatorResistor_ohm: number
  readonly bulkCapacitance_F: Spread
  /** True where the tool chose the value, false where the builder fixed it. */
  readonly chosen: Readonly<Record<ChoiceName, boolean>>
}
