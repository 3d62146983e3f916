import { type ESeries, seriesBetween, seriesNearest } from './e-series.ts'

export interface DividerPair {
  readonly top_ohm: number
  readonly bottom_ohm: number
  /** (top + bottom) / bottom. */
  readonly ratio: number
  /** Relative error of the ratio against the one asked for. */
  readonly error: number
}

/**
 * Pairs of preferred resistors that divide by a wanted ratio (top + bottom) / bottom, the smallest error first and
 * the nearest bottom value first among equals. Every bottom value of the series from low to high is tried with the
 * best top value for it. Throws a RangeError for a ratio not above 1 or a range that holds no preferred value.
 */
export function dividerPairs(
  wantedRatio: number,
  series: ESeries,
  bottomLow_ohm: number,
  bottomHigh_ohm: number,
): DividerPair[] {
  if (!(wantedRatio > 1)) throw new RangeError(`divider ratio is ${wantedRatio}, but it must be above 1`)
  const middle_ohm = Math.sqrt(bottomLow_ohm * bottomHigh_ohm)
  const bottoms = seriesBetween(bottomLow_ohm, bottomHigh_ohm, series)
  if (bottoms.length === 0)
    throw new RangeError(`no ${series} value lies between ${bottomLow_ohm} and ${bottomHigh_ohm} ohm`)
  const distance = (pair: DividerPair) => Math.abs(Math.log(pair.bottom_ohm / middle_ohm))
  return bottoms
    .map((bottom_ohm) => {
      const top_ohm = seriesNearest(bottom_ohm * (wantedRatio - 1), series)
      const ratio = 1 + top_ohm / bottom_ohm
      return { top_ohm, bottom_ohm, ratio, error: ratio / wantedRatio - 1 }
    })
    .sort((a, b) => Math.abs(a.error) - Math.abs(b.error) || distance(a) - distance(b))
}
