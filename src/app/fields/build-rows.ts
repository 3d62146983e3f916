import type { Place } from '../../engine/supply/build.ts'
import type { Design } from '../../engine/supply/design.ts'
import type { Spot } from '../../engine/supply/refs.ts'
import type { Explanation } from '../controls/explain.tsx'
import type { Path } from '../state/edits.ts'
import { buildStrings } from '../strings/build.ts'

/** A part taken from the drawer, with a count beside it where several may stand in parallel. */
interface PartRow {
  readonly is: 'part'
  readonly place: Place
  readonly count?: Path
}

interface NumberRow {
  readonly is: 'number'
  readonly path: Path
  readonly label: string
  readonly unit: string
  readonly whole: boolean
  readonly spots: readonly Spot[]
  readonly help: Explanation
  /** What the tool chose; absent where a value is always needed. */
  readonly chosen?: (design: Design) => number
}

interface ChoiceRow {
  readonly is: 'choice'
  readonly path: Path
  readonly label: string
  readonly options: readonly { readonly value: string; readonly label: string }[]
  readonly help: Explanation
}

interface CheckRow {
  readonly is: 'check'
  readonly path: Path
  readonly label: string
  readonly help: Explanation
}

interface SnubberRow {
  readonly is: 'snubber'
}

export type BuildRow = PartRow | NumberRow | ChoiceRow | CheckRow | SnubberRow

/** A part from the drawer; `count` where several may stand in parallel. */
export const part = (place: Place, count?: string): PartRow =>
  count === undefined ? { is: 'part', place } : { is: 'part', place, count: ['build', count] }

type Label = keyof typeof buildStrings.labels

/** A whole number that is always needed. */
export const given = (
  label: Label,
  path: readonly string[],
  spots: readonly Spot[],
  about: Explanation,
): NumberRow => ({
  is: 'number',
  path: ['build', ...path],
  label: buildStrings.labels[label],
  unit: '',
  whole: true,
  spots,
  help: about,
})

/** A value that the tool chooses while it is left open. */
export const free = (
  label: Label,
  path: readonly string[],
  unit: string,
  chosen: (design: Design) => number,
  spots: readonly Spot[],
  about: Explanation,
): NumberRow => ({ ...given(label, path, spots, about), unit, whole: false, chosen })

/** The same as a whole number. */
export const whole = (...row: Parameters<typeof free>): NumberRow => ({ ...free(...row), whole: true })

/** One of a few ways to build. */
export const choice = (
  label: Label,
  path: readonly string[],
  options: Record<string, string>,
  about: Explanation,
): ChoiceRow => ({
  is: 'choice',
  path: ['build', ...path],
  label: buildStrings.labels[label],
  options: Object.entries(options).map(([value, text]) => ({ value, label: text })),
  help: about,
})

/** Yes or no. */
export const check = (label: Label, path: readonly string[], about: Explanation): CheckRow => ({
  is: 'check',
  path: ['build', ...path],
  label: buildStrings.labels[label],
  help: about,
})
