import { z } from 'zod'

/** No code made from text: the page's content policy forbids it, and even zod's try would be reported there. */
z.config({ jitless: true })

/**
 * Field types shared by every kind of part. All values are SI base units (temperatures in °C); the unit is the
 * ending of the field's name. Bounds are physical sanity, wide enough for any part of the trade.
 */
export const positive = (limit: number) => z.number().positive().max(limit)
export const nonNegative = (limit: number) => z.number().min(0).max(limit)
export const fraction = z.number().min(0).max(1)
export const temperature_C = z.number().min(-60).max(400)
export const text = (limit: number) => z.string().max(limit)

/** Minimum, typical and maximum of one value, in rising order. */
export const spread = (limit: number) =>
  z
    .strictObject({ minimum: nonNegative(limit), typical: nonNegative(limit), maximum: nonNegative(limit) })
    .refine((s) => s.minimum <= s.typical && s.typical <= s.maximum, {
      message: 'minimum, typical and maximum must be in rising order',
    })

/** Fields that every part has: an identity inside its drawer, a name by rating, where its figures come from. */
export const identity = {
  id: z.string().regex(/^[a-z0-9][a-z0-9.-]{0,79}$/, {
    message: 'an id is 1 to 80 of a-z, 0-9, dot and hyphen, and starts with a letter or digit',
  }),
  name: z.string().min(1).max(120),
  note: text(2000).optional(),
  source: text(400).optional(),
  /** Price in the builder's own currency, for ranking only. */
  price: nonNegative(1e6).optional(),
}
