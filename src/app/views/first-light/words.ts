import type { Check, FaultRow, Trace } from '../../../engine/bench/index.ts'
import { bandWords } from '../../../engine/papers/power-up.ts'
import type { LogEntry } from '../../../engine/supply/bench-log.ts'
import { show } from '../../fields/show.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { isOverRange } from './read-typed.ts'

const words = firstLightStrings

const tidy = (text: string): string => text.replaceAll('\u202f', '\u00a0').replace(/^-/, '−')

/** Words of an answer of a check without a number. */
const answerWords = ({ state }: Check, id: string): string =>
  state?.answers.find((a) => a.id === id)?.label ?? id

/** A reading of the log in words. */
export const valueWords = (check: Check, { value, note }: Pick<LogEntry, 'value' | 'note'>): string =>
  value === null
    ? answerWords(check, note)
    : isOverRange(check, value)
      ? 'OL'
      : show(value, check.expected?.unit ?? '1', 4)

/** What a check expects: a band, or the expected answer. */
export const expectWords = (check: Check): string =>
  check.expected ? tidy(bandWords(check.expected)) : check.state ? answerWords(check, check.state.expect) : ''

/** What a fault would make of a check, in words. */
export function traceWords(check: Check, trace: Trace): string {
  if (trace.kind === 'number') return show(trace.value, check.expected?.unit ?? '1', 2)
  const [likely] = Object.entries(trace.chances).sort((a, b) => b[1] - a[1])
  return likely ? answerWords(check, likely[0]) : ''
}

const steps = [0.9, 0.6, 0.3, 0.1, 0.02] as const

/** How likely, in words. */
export const chanceWords = (chance: number): string => {
  const at = steps.findIndex((step) => chance >= step)
  return words.finder.chances[at < 0 ? steps.length : at]!
}

export const percentWords = (chance: number): string =>
  chance >= 0.995
    ? `over ${show(0.99, '%', 2)}`
    : chance < 0.005
      ? `under ${show(0.01, '%', 1)}`
      : show(Math.round(100 * chance) / 100, '%', 2)

/** How strongly a reading speaks, in words. */
export const evidenceWords = (decibans: number): string => {
  const strength = Math.abs(decibans) < 5 ? 0 : Math.abs(decibans) < 15 ? 1 : 2
  return decibans > 0 ? words.finder.speaks.for[strength]! : words.finder.speaks.against[strength]!
}

/** Day and time of a log entry, without its seconds. */
export const whenWords = (at: string): string => at.replace('T', ' ').slice(0, 16)

export const basisWords = (row: FaultRow): string => words.finder.basis[row.basis]
