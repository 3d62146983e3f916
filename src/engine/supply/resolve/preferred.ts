import { seriesNumbers } from '../../quantity/index.ts'

/** Preferred numbers of one decade for values that live editing chooses anew at every keystroke. */
const numbers = { E6: seriesNumbers('E6'), E12: seriesNumbers('E12'), E24: seriesNumbers('E24') }
type Series = keyof typeof numbers

/** Keeps 8200 from reading 8199.999; the quick way where thousandths are exact enough. */
const tidy = (value: number): number =>
  value >= 1 ? Math.round(value * 1000) / 1000 : Number(value.toPrecision(4))

const decadeOf = (value: number): number => 10 ** Math.floor(Math.log10(value) + 1e-9)

/** Greatest preferred value that is not above a positive value. */
export function preferredBelow(value: number, series: Series): number {
  const decade = decadeOf(value)
  let best = 1
  for (const n of numbers[series]) if (n * decade <= value * (1 + 1e-9)) best = n
  return tidy(best * decade)
}

/** Least preferred value that is not below a positive value. */
export function preferredAbove(value: number, series: Series): number {
  const decade = decadeOf(value)
  for (const n of numbers[series]) if (n * decade >= value * (1 - 1e-9)) return tidy(n * decade)
  return tidy(10 * decade)
}

/** Preferred value nearest by ratio to a positive value. */
export function preferredNearest(value: number, series: Series): number {
  const below = preferredBelow(value, series)
  const above = preferredAbove(value, series)
  return value / below <= above / value ? below : above
}
