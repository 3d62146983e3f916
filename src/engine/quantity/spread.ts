/** A part value with the extremes its maker or its tolerance allows, in the SI unit that its field name carries. */
export interface Spread {
  readonly minimum: number
  readonly typical: number
  readonly maximum: number
}

/** Spread of a nominal value with a symmetric relative tolerance (0.2 for ±20 %). */
export const withTolerance = (nominal: number, relative: number): Spread => ({
  minimum: nominal * (1 - relative),
  typical: nominal,
  maximum: nominal * (1 + relative),
})
