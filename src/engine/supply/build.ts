import { z } from 'zod'
import { nonNegative, positive } from '../parts/fields.ts'

const id = z.string().min(1).max(80)
const optionalId = id.nullable()
/** A value that the builder fixes, or null: choose for me. */
const chosen = <T extends z.ZodType>(schema: T) => schema.nullable()

/** Ids (inside the supply's own `parts`) of what is used in each place; null where the place stays empty. */
export const places = z.strictObject({
  switcher: id,
  core: id,
  material: id,
  former: id,
  primaryWire: id,
  secondaryWire: id,
  biasWire: id,
  tape: id,
  spacerFilm: optionalId,
  rectifier: id,
  clampDiode: id,
  clampAvalanche: optionalId,
  biasDiode: id,
  bridge: optionalId,
  ntc: optionalId,
  fuse: optionalId,
  varistor: optionalId,
  xCapacitor: optionalId,
  commonModeChoke: optionalId,
  yCapacitor: optionalId,
  bulkCapacitor: id,
  outputCapacitor: id,
  choke: optionalId,
  chokeWire: optionalId,
  secondCapacitor: optionalId,
  biasCapacitor: id,
  optocoupler: id,
  reference: id,
  trimmer: optionalId,
  indicator: optionalId,
  switcherHeatsink: optionalId,
  switcherPad: optionalId,
  rectifierHeatsink: optionalId,
  rectifierPad: optionalId,
})

export const windingNames = ['primary', 'secondary', 'bias'] as const

/** The winding stack from the former's barrel outward. */
export const stackItem = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('winding'),
    winding: z.enum(windingNames),
    /** Turns of this winding that lie here; the parts of one winding are joined in the order in which they lie. */
    turns: z.int().min(1).max(2000),
    direction: z.enum(['clockwise', 'counter-clockwise']),
    /** Null where two parts of a winding are joined off the pins: the joint is insulated and left unused. */
    startPin: z.int().min(1).max(40).nullable(),
    finishPin: z.int().min(1).max(40).nullable(),
  }),
  z.strictObject({ kind: z.literal('tape'), layers: z.int().min(1).max(20) }),
  z.strictObject({ kind: z.literal('shield'), thickness_m: positive(0.001), pin: z.int().min(1).max(40) }),
])

export const transformerBuild = z.strictObject({
  reflectedVoltage_V: chosen(z.number().min(20).max(300)),
  /** Ripple-to-peak ratio of the primary current at lowest bulk voltage and full load; 1 is the boundary of modes. */
  rippleRatio: chosen(z.number().min(0.15).max(1)),
  primaryTurns: chosen(z.int().min(1).max(2000)),
  secondaryTurns: chosen(z.int().min(1).max(500)),
  biasTurns: chosen(z.int().min(1).max(500)),
  biasVoltage_V: chosen(z.number().min(5).max(60)),
  /** Where the gap sits: ground into the post, or a spacer of this thickness under every leg. */
  gapPlace: z.enum(['post', 'all-legs']),
  gap_m: chosen(nonNegative(0.01)),
  primaryInHand: chosen(z.int().min(1).max(50)),
  secondaryInHand: chosen(z.int().min(1).max(50)),
  biasInHand: chosen(z.int().min(1).max(10)),
  splitPrimary: z.boolean(),
  insulation: z.enum(['margins', 'triple-insulated']),
  margin_m: chosen(nonNegative(0.02)),
  tapeBarrier: z.int().min(1).max(20),
  tapeLayer: z.int().min(0).max(10),
  tapeOuter: z.int().min(0).max(20),
  stack: chosen(z.array(stackItem).min(1).max(60)),
})

const clampBuild = z.strictObject({
  style: z.enum(['resistor-capacitor', 'avalanche']),
  /** Clamp voltage above the bulk voltage; sizes the resistor when that is left to choose. */
  voltage_V: chosen(z.number().min(20).max(600)),
  resistor_ohm: chosen(positive(1e7)),
  capacitor_F: chosen(positive(1e-5)),
})

const feedbackBuild = z.strictObject({
  dividerTop_ohm: chosen(positive(1e7)),
  dividerBottom_ohm: chosen(positive(1e7)),
  ledResistor_ohm: chosen(positive(1e6)),
  /** Resistor across the optocoupler's LED that feeds the reference its minimum current. */
  biasResistor_ohm: chosen(positive(1e6)),
  compensationResistor_ohm: chosen(positive(1e7)),
  compensationCapacitor_F: chosen(positive(1e-3)),
  highFrequencyCapacitor_F: chosen(nonNegative(1e-3)),
  softFinishCapacitor_F: chosen(nonNegative(1e-2)),
  senseAfterChoke: z.boolean(),
  ledFeedAfterChoke: z.boolean(),
})

export const build = z.strictObject({
  places,
  bulkCount: z.int().min(1).max(10),
  outputCount: z.int().min(1).max(20),
  secondCount: z.int().min(1).max(20),
  transformer: transformerBuild,
  clamp: clampBuild,
  snubber: z.strictObject({ resistor_ohm: positive(1e6), capacitor_F: positive(1e-6) }).nullable(),
  chokeTurns: chosen(z.int().min(1).max(500)),
  chokeInHand: chosen(z.int().min(1).max(50)),
  bleed_ohm: chosen(positive(1e8)),
  indicatorResistor_ohm: chosen(positive(1e7)),
  feedback: feedbackBuild,
  /** Leads cross the margins bare, against the winding sheet. */
  unsleeved: z.boolean().optional(),
  /** Shortest way along the board between primary and secondary, as measured; and the slot across it. */
  boardCreepage_m: nonNegative(0.2).nullable().optional(),
  boardSlot_m: nonNegative(0.02).nullable().optional(),
})

export type WindingName = (typeof windingNames)[number]
export type Places = z.infer<typeof places>
export type Place = keyof Places
export type StackItem = z.infer<typeof stackItem>
export type TransformerBuild = z.infer<typeof transformerBuild>
export type Build = z.infer<typeof build>
