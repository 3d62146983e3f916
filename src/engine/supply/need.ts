import { z } from 'zod'
import { nonNegative, positive, text } from '../parts/fields.ts'

/** What the supply is plugged into. */
const source = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('mains'),
    minimum_Vrms: z.number().min(80).max(300),
    nominal_Vrms: z.number().min(80).max(300),
    maximum_Vrms: z.number().min(80).max(300),
    frequency_Hz: z.number().min(45).max(66),
  }),
  z.strictObject({
    kind: z.literal('dc'),
    minimum_V: z.number().min(60).max(420),
    nominal_V: z.number().min(60).max(420),
    maximum_V: z.number().min(60).max(420),
  }),
])

/** What is asked of the supply. */
export const need = z
  .strictObject({
    source,
    output_V: z.number().min(1.8).max(60),
    /** Lowest and highest output that the trimmer must reach; both equal to `output_V` for no trim. */
    trimLow_V: z.number().min(1.5).max(72),
    trimHigh_V: z.number().min(1.5).max(72),
    output_A: z.number().min(0.02).max(40),
    /** Peak-to-peak at the load, switching frequency and mains together. */
    ripple_Vpp: positive(10),
    holdUp_s: nonNegative(0.2),
    ambient_C: z.number().min(-20).max(70),
    cooling: z.enum(['open', 'case-vented', 'case-closed', 'fan']),
    feeds: z.enum(['resistive', 'electronics', 'charging']),
    /** The output is joined to earth, by its case or by what it feeds; free of earth where left out. */
    outputEarthed: z.boolean().optional(),
    insulation: z.enum(['basic', 'reinforced']),
    pollutionDegree: z.union([z.literal(1), z.literal(2), z.literal(3)]),
    altitude_m: z.number().min(-400).max(5000),
    note: text(2000).optional(),
  })
  .superRefine((n, context) => {
    const low = n.source.kind === 'mains' ? n.source.minimum_Vrms : n.source.minimum_V
    const mid = n.source.kind === 'mains' ? n.source.nominal_Vrms : n.source.nominal_V
    const high = n.source.kind === 'mains' ? n.source.maximum_Vrms : n.source.maximum_V
    if (!(low <= mid && mid <= high))
      context.addIssue({
        code: 'custom',
        path: ['source'],
        message: `input must rise from minimum to nominal to maximum, not ${low}, ${mid}, ${high} V`,
      })
    if (!(n.trimLow_V <= n.output_V && n.output_V <= n.trimHigh_V))
      context.addIssue({
        code: 'custom',
        path: ['trimLow_V'],
        message: `the trim range ${n.trimLow_V} to ${n.trimHigh_V} V must hold the output of ${n.output_V} V`,
      })
    if (n.output_V * n.output_A > 250)
      context.addIssue({
        code: 'custom',
        path: ['output_A'],
        message: `${Math.round(n.output_V * n.output_A)} W is over 250 W, more than a single-switch flyback of this kind is for`,
      })
  })

export type Need = z.infer<typeof need>
