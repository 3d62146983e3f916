/** One figure of this project beside one from outside, for docs/accuracy.md. */
export interface Comparison {
  readonly what: string
  /** The outside figure, as printed. */
  readonly reference: string
  /** Found over reference less one, or found less reference in `unit`. */
  readonly error: number
  readonly unit: 'ratio' | 'dB' | 'degrees'
}

/** Comparisons of one model with one source. */
export interface Topic {
  readonly title: string
  readonly against: string
  /** Folder beside this one that holds the reference and its README. */
  readonly folder: string
  readonly rows: readonly Comparison[]
}

/** Three digits and an SI unit, as far as a table needs. */
const printed = (value: number, unit: string): string =>
  `${Number(value.toPrecision(4))}${unit === '' ? '' : ` ${unit}`}`

export const ratio = (what: string, found: number, wanted: number, unit = '', scale = 1): Comparison => ({
  what,
  reference: printed(wanted * scale, unit),
  error: found / wanted - 1,
  unit: 'ratio',
})

export const difference = (
  what: string,
  found: number,
  wanted: number,
  unit: 'dB' | 'degrees',
): Comparison => ({ what, reference: printed(wanted, unit), error: found - wanted, unit })
