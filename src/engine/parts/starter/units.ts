/**
 * The tables of the starter drawer are written in the units of the trade; parts hold SI. Dividing by a power of
 * ten gives the double nearest to the printed decimal, so that 7.25 mm is stored as 0.00725.
 */
export const mm = (value: number) => value / 1e3
export const mm2 = (value: number) => value / 1e6
export const mm3 = (value: number) => value / 1e9
export const milli = (value: number) => value / 1e3
export const micro = (value: number) => value / 1e6
export const nano = (value: number) => value / 1e9
export const pico = (value: number) => value / 1e12

/** Value rounded to significant digits, for rows that follow from a rule rather than from a table. */
export const rounded = (value: number, digits = 3) => Number(value.toPrecision(digits))

/** A number as it may stand in an id: `0.5` gives `0.5`, `1000` gives `1000`. */
export const slug = (value: string | number) =>
  String(value)
    .toLowerCase()
    .replaceAll(/[^a-z0-9.]+/g, '-')
    .replaceAll(/^-|-$/g, '')
