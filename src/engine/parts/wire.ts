import { z } from 'zod'
import { identity, positive, temperature_C } from './fields.ts'

const common = { ...identity, kind: z.literal('wire'), temperature_C }

/** Enamelled round copper, IEC 60317-0-1: bare diameter, grade, greatest overall diameter. */
const enamelled = z.strictObject({
  ...common,
  construction: z.literal('enamelled'),
  bare_m: positive(0.01),
  grade: z.union([z.literal(1), z.literal(2), z.literal(3)]),
  overall_m: positive(0.012),
})

/** Stranded (litz) wire: strands of enamelled copper, overall diameter of the bundle. */
const litz = z.strictObject({
  ...common,
  construction: z.literal('litz'),
  strands: z.int().min(2).max(5000),
  strand_m: positive(0.002),
  overall_m: positive(0.02),
  /** Length of strand for a length of bundle, 1.02 for a usual lay. */
  lay: positive(1.5),
})

const tripleInsulated = z.strictObject({
  ...common,
  construction: z.literal('triple-insulated'),
  bare_m: positive(0.01),
  overall_m: positive(0.012),
  insulation: z.enum(['basic', 'reinforced']),
})

const foil = z.strictObject({
  ...common,
  construction: z.literal('foil'),
  thickness_m: positive(0.002),
  width_m: positive(0.1),
  /** Insulation wound with the foil. */
  insulation_m: positive(0.002),
})

export const wire = z.discriminatedUnion('construction', [enamelled, litz, tripleInsulated, foil])

export const tape = z.strictObject({
  ...identity,
  kind: z.literal('tape'),
  thickness_m: positive(0.002),
  width_m: positive(0.2),
  /** Electric strength of one layer, peak. */
  strength_V: positive(50000),
  temperature_C,
})

export const sleeving = z.strictObject({
  ...identity,
  kind: z.literal('sleeving'),
  wall_m: positive(0.005),
  bore_m: positive(0.02),
  temperature_C,
})

/** Spacer film for a gap under all legs. */
export const film = z.strictObject({
  ...identity,
  kind: z.literal('film'),
  thickness_m: positive(0.005),
  temperature_C,
})
