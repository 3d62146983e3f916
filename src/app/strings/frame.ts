/** Words of the status line and of what surrounds a supply. */
export const frameStrings = {
  keptIn: 'Kept in',
  waiting: (n: number) =>
    n === 1
      ? 'One field is not a value yet; the last good one is used.'
      : `${n} fields are not values yet; the last good ones are used.`,
} as const
