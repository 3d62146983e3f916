/** Band of a winding's resistance from the wire's diameter and the length of hand-laid turns. Common practice, no source. */
export const resistanceBand = 0.1

/** A value less and more a fraction of itself. */
export const around = (value: number, band: number): [low: number, high: number] => [
  value * (1 - band),
  value * (1 + band),
]
