/** How a scope is set so that a waveform fills most of its screen. */
export interface ScopeSetting {
  readonly perDivision: number
  /** Zero line, in divisions above the middle of the screen. */
  readonly zeroAt: number
}

const divisions = 8

/** The next of 1, 2, 5 times a power of ten at or above a value. */
function next125(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(Math.max(value, 1e-12)) + 1e-9)
  const share = value / decade
  return decade * (share <= 1.0001 ? 1 : share <= 2.0001 ? 2 : share <= 5.0001 ? 5 : 10)
}

/**
 * Vertical setting for a waveform between two values: the least step of 1, 2 or 5 by which it fits seven of the eight
 * divisions of a usual screen, zero on a whole division.
 */
export function scopeSetting(least: number, most: number): ScopeSetting {
  const low = Math.min(0, least)
  const high = Math.max(0, most)
  let perDivision = next125(Math.max(high - low, 1e-9) / (divisions - 1))
  for (;;) {
    const zeroAt = -Math.round((high + low) / 2 / perDivision)
    const fits = high / perDivision + zeroAt <= divisions / 2 && low / perDivision + zeroAt >= -divisions / 2
    if (fits) return { perDivision, zeroAt }
    perDivision = next125(perDivision * 1.01)
  }
}

/** Horizontal setting at which a span fits the ten divisions of a usual screen. */
export const timePerDivision_s = (span_s: number): number => next125(span_s / 10)
