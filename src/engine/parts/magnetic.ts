import { z } from 'zod'
import { identity, nonNegative, positive, spread, temperature_C, text } from './fields.ts'

export const coreShapes = ['E', 'EE', 'EF', 'EI', 'EER', 'ETD', 'ER', 'EFD', 'PQ', 'RM'] as const

/**
 * Two equal halves (for EI: an E and a plate). Dimension letters are those of the trade's E-type drawing:
 * A overall width, B height of one half, C depth, D window height of one half, E outer window width (or diameter),
 * F width (or diameter) of the post; EFD adds F2, the thickness of its flat post; PQ and RM add G, the width of
 * the opening through which the wire leaves.
 */
const coreDimensions = z.strictObject({
  A_m: positive(0.2),
  B_m: positive(0.2),
  C_m: positive(0.2),
  D_m: positive(0.2),
  E_m: positive(0.2),
  F_m: positive(0.2),
  F2_m: positive(0.2).optional(),
  G_m: positive(0.2).optional(),
})

/** Effective parameters as printed in a table. */
const publishedCore = z.strictObject({
  effectiveArea_m2: positive(0.01),
  effectiveLength_m: positive(1),
  effectiveVolume_m3: positive(0.01),
  minimumArea_m2: positive(0.01).optional(),
  source: text(400),
})

export const core = z.strictObject({
  ...identity,
  kind: z.literal('core'),
  shape: z.enum(coreShapes),
  /** Standard size, for instance `E25/13/7`; a former fits the cores that carry the same size. */
  size: text(40),
  dimensions: coreDimensions,
  published: publishedCore.optional(),
})

const lossPoint = z.strictObject({
  frequency_Hz: positive(1e8),
  fluxPeak_T: positive(2),
  temperature_C,
  loss_W_per_m3: positive(1e9),
})

const saturationPoint = z.strictObject({
  temperature_C,
  field_A_per_m: positive(1e5),
  flux_T: positive(3),
})

/** Power ferrite of an IEC 61332 class, or the builder's own figures. */
export const material = z.strictObject({
  ...identity,
  kind: z.literal('material'),
  class: text(40),
  initialPermeability: spread(50000),
  /** Points of the magnetisation curve; at least one at 25 °C and one at 100 °C. */
  saturation: z.array(saturationPoint).min(1).max(100),
  lossPoints: z.array(lossPoint).min(1).max(200),
  curie_C: temperature_C,
  density_kg_per_m3: positive(20000),
})

export const former = z.strictObject({
  ...identity,
  kind: z.literal('former'),
  fits: z.array(z.string().min(1).max(40)).min(1).max(20),
  /** Winding width along the post, between flanges. */
  width_m: positive(0.2),
  /** Winding height from the former's barrel to the outer leg, usable. */
  height_m: positive(0.1),
  /** Outside of the barrel on which the first turn lies: diameter, or width and depth of a rectangle. */
  barrel: z.discriminatedUnion('section', [
    z.strictObject({ section: z.literal('round'), diameter_m: positive(0.2) }),
    z.strictObject({ section: z.literal('rectangular'), width_m: positive(0.2), depth_m: positive(0.2) }),
  ]),
  wall_m: positive(0.01),
  flange_m: positive(0.01),
  /** Pins in two rows; row one has pins 1 to rowOne, row two the rest, numbered round the former. */
  rowOne: z.int().min(1).max(20),
  rowTwo: z.int().min(1).max(20),
  rowDistance_m: positive(0.2),
  temperature_C,
})

/** Powder toroid for chokes. */
export const toroid = z.strictObject({
  ...identity,
  kind: z.literal('toroid'),
  outer_m: positive(0.3),
  inner_m: positive(0.3),
  height_m: positive(0.3),
  permeability: positive(1000),
  inductanceFactor_H: positive(1e-4),
  inductanceFactorTolerance: nonNegative(0.5),
  /** Fraction of the initial permeability left at a DC field. */
  biasCurve: z
    .array(z.strictObject({ field_A_per_m: nonNegative(1e6), fraction: nonNegative(1.2) }))
    .min(2)
    .max(50),
  lossPoints: z.array(lossPoint).min(1).max(200),
})

/** Ready-made common-mode choke on the mains side. */
export const commonModeChoke = z.strictObject({
  ...identity,
  kind: z.literal('common-mode-choke'),
  inductance_H: positive(1),
  leakage_H: positive(0.1),
  resistance_ohm: positive(100),
  current_A: positive(100),
})
