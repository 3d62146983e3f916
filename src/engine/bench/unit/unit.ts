import type { Design } from '../../supply/design.ts'

/** State of one part on the board. */
export type Condition = 'good' | 'open' | 'short' | 'reversed'

/** Parts that can be open, shorted or the wrong way round. */
export const wearable = [
  'input',
  'bridge',
  'bulk',
  'drain',
  'clampDiode',
  'clamp',
  'rectifier',
  'outputCapacitor',
  'biasDiode',
  'biasWinding',
  'led',
  'transistor',
  'reference',
  'dividerTop',
  'dividerBottom',
] as const
export type Wearable = (typeof wearable)[number]

/**
 * One finished supply on the bench, healthy or not: its values as they truly are, and what is wrong with it. The
 * models of this room turn a unit into what instruments would read; a fault is a unit with something changed.
 */
export interface Unit {
  /** True values, which may differ from the plan. */
  readonly design: Design
  readonly parts: Readonly<Record<Wearable, Condition>>
  /** 1 as planned, -1 with the ends swapped. */
  readonly secondarySense: 1 | -1
  readonly biasSense: 1 | -1
  readonly shortedTurn: boolean
  /** Change of inductance when the core halves are pressed together, as a part of it. */
  readonly squeeze: number
  /** Loss of the core over that of its material. */
  readonly coreLossFactor: number
  /** Capacitance of the coil over that of the plan. */
  readonly capacitanceFactor: number
  /** Resistance from primary to secondary. */
  readonly barrier_ohm: number
  readonly yCapacitance_F: number
  /** Optocoupler with LED or transistor wired the other way round. */
  readonly transferRatio: number
  /** Cathode current over what the reference needs is below one: it is starved. */
  readonly starved: boolean
  /** A source too weak for the supply stands in the mains lead for good. */
  readonly weakSource_W: number | null
  /** Load on the output that does not belong to it: an electronic load that pulls current from zero volts. */
  readonly stubbornLoad: boolean
}

/** A unit built to plan. */
export function healthyUnit(design: Design): Unit {
  const { parts } = design
  return {
    design,
    parts: Object.fromEntries(wearable.map((name) => [name, 'good'])) as Record<Wearable, Condition>,
    secondarySense: 1,
    biasSense: 1,
    shortedTurn: false,
    squeeze: 0.004,
    coreLossFactor: 1,
    capacitanceFactor: 1,
    barrier_ohm: 2e9,
    yCapacitance_F: parts.yCapacitor?.capacitance_F ?? 0,
    transferRatio: parts.optocoupler.transferRatio.typical,
    starved: false,
    weakSource_W: null,
    stubbornLoad: false,
  }
}

/** The same unit with the transformer, need or parts of its design changed. */
export const withDesign = (unit: Unit, change: Partial<Design>): Unit => ({
  ...unit,
  design: { ...unit.design, ...change },
})

/** The same unit with some of its parts in another state. */
export const withParts = (unit: Unit, parts: Partial<Record<Wearable, Condition>>): Unit => ({
  ...unit,
  parts: { ...unit.parts, ...parts },
})
