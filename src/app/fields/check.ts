import { build as buildSchema } from '../../engine/supply/build.ts'
import type { Need } from '../../engine/supply/need.ts'
import { need as needSchema } from '../../engine/supply/need.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import { applyChanges, type Change, type Path, valueAt } from '../state/edits.ts'
import { buildStrings } from '../strings/build.ts'
import type { TypedRange } from './parse.ts'
import { show } from './show.ts'

interface Named {
  readonly label: string
  readonly unit: string
}

interface Issue {
  readonly code?: string | undefined
  readonly path: readonly PropertyKey[]
  readonly message: string
  readonly maximum?: unknown
  readonly minimum?: unknown
}

/** What is wrong with a value, naming field, value and limit. */
export const wrongSentence = (issue: Issue, named: Named, value: unknown): string => {
  const text = typeof value === 'number' ? show(value, named.unit, 4) : String(value)
  if (issue.code === 'too_big')
    return buildStrings.over(named.label, text, show(Number(issue.maximum), named.unit))
  if (issue.code === 'too_small')
    return buildStrings.under(named.label, text, show(Number(issue.minimum), named.unit))
  if (issue.code === 'invalid_type') return buildStrings.whole(named.label, text)
  return issue.message.charAt(0).toUpperCase() + issue.message.slice(1)
}

/** What is wrong with these changes, in a sentence that names field, value and limit; null when nothing is. */
export const wrongWith = (supply: Supply, changes: readonly Change[], named: Named): string | null => {
  const next = applyChanges(supply, changes)
  const isNeed = changes[0]?.path[0] === 'need'
  const parsed = isNeed ? needSchema.safeParse(next.need) : buildSchema.safeParse(next.build)
  if (parsed.success) return null
  const issue = parsed.error.issues[0] as Issue
  return wrongSentence(issue, named, valueAt(isNeed ? next.need : next.build, issue.path as Path))
}

/** Changes that set places of a supply, each with what is there now. */
export const setting = (supply: Supply, values: readonly (readonly [Path, unknown])[]): Change[] =>
  values.map(([path, to]) => ({ path, from: valueAt(supply, path), to }))

const tidy = (value: number) => Number(value.toPrecision(4))

/** A new output voltage takes the trim range along, so that it keeps its shape. */
export const outputChanges = (supply: Supply, output_V: number): Change[] => {
  const { need } = supply
  const scale = output_V / need.output_V
  return setting(supply, [
    [['need', 'output_V'], output_V],
    [['need', 'trimLow_V'], Math.min(tidy(need.trimLow_V * scale), output_V)],
    [['need', 'trimHigh_V'], Math.max(tidy(need.trimHigh_V * scale), output_V)],
  ])
}

const usual_Vrms = [230, 120, 100]

/** The usual voltage inside a range: what it was if it still fits, else a mains voltage of the world, else the middle. */
export const nominalIn = (low: number, high: number, before: number): number =>
  [before, ...usual_Vrms].find((v) => low <= v && v <= high) ?? tidy(Math.sqrt(low * high))

/** A new input range, with the middle that was written for it, else a usual voltage inside it. */
export const sourceRangeChanges = (supply: Supply, { low, high, middle }: TypedRange): Change[] => {
  const { source } = supply.need
  const nominal = (before: number) => middle ?? nominalIn(low, high, before)
  const next: Need['source'] =
    source.kind === 'mains'
      ? {
          ...source,
          minimum_Vrms: low,
          maximum_Vrms: high,
          nominal_Vrms: nominal(source.nominal_Vrms),
        }
      : { ...source, minimum_V: low, maximum_V: high, nominal_V: nominal(source.nominal_V) }
  return setting(supply, [[['need', 'source'], next]])
}
