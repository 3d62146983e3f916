/** Preferred numbers of IEC 60063, one decade, from 1 (inclusive) to 10 (exclusive). */
const listed = {
  E6: [1, 1.5, 2.2, 3.3, 4.7, 6.8],
  E12: [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2],
  E24: [
    1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5,
    8.2, 9.1,
  ],
} as const

/**
 * From E48 on the numbers are 10^(i/n) rounded to two decimals; the standard's one exception is 9.20 in E192, where
 * the rule gives 9.19.
 */
const computed = (count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => {
    const value = Math.round(100 * 10 ** (i / count)) / 100
    return count === 192 && value === 9.19 ? 9.2 : value
  })

const series = { ...listed, E48: computed(48), E96: computed(96), E192: computed(192) }

export type ESeries = keyof typeof series

/** The numbers of one decade of a series, rising. */
export const seriesNumbers = (name: ESeries): readonly number[] => series[name]

/** A preferred number in a decade, free of binary dust: (4.7, 3) is 4700. */
const inDecade = (number: number, decade: number) => Number(`${number}e${decade}`)

/** Preferred values around a positive value: the decade below its own to the decade above. */
function around(value: number, name: ESeries): number[] {
  if (!(value > 0 && Number.isFinite(value)))
    throw new RangeError(`value is ${value}, but a series holds only values above 0`)
  const decade = Math.floor(Math.log10(value))
  return [decade - 1, decade, decade + 1].flatMap((d) => series[name].map((n) => inDecade(n, d)))
}

/** How far above or below a preferred value still counts as that value. */
const same = 1e-9

/** The greatest preferred value that is not above the value. */
export const seriesBelow = (value: number, name: ESeries): number =>
  around(value, name).findLast((v) => v <= value * (1 + same))!

/** The least preferred value that is not below the value. */
export const seriesAbove = (value: number, name: ESeries): number =>
  around(value, name).find((v) => v >= value * (1 - same))!

/** The preferred value nearest by ratio. */
export function seriesNearest(value: number, name: ESeries): number {
  const below = seriesBelow(value, name)
  const above = seriesAbove(value, name)
  return value / below <= above / value ? below : above
}

/** Every preferred value from low to high, both included. */
export function seriesBetween(low: number, high: number, name: ESeries): number[] {
  const values: number[] = []
  for (let decade = Math.floor(Math.log10(low)); decade <= Math.log10(high); decade++)
    for (const number of series[name]) {
      const value = inDecade(number, decade)
      if (value >= low * (1 - same) && value <= high * (1 + same)) values.push(value)
    }
  return values
}
