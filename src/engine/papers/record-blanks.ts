import type { Limit } from '../limits/limit.ts'
import { formatQuantity } from '../quantity/index.ts'
import type { AsBuiltField } from '../supply/bench-log.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { crowdedPins, fightingParts } from '../supply/transformer/pins.ts'
import { type AsBuiltRow, asBuiltRows, bandWords } from './as-built.ts'

/** Something that a build record does not say. */
export interface RecordBlank {
  readonly where: string
  readonly what: string
  /** Whether a second person could not rebuild without it, or would only like to know. */
  readonly stops: boolean
}

/** Readings without which nobody can tell whether a second transformer is like the first. */
const needed: readonly AsBuiltField[] = [
  'primaryInductance_H',
  'leakage_H',
  'primaryResistance_ohm',
  'secondaryResistance_ohm',
  'biasResistance_ohm',
]
/** Readings that must agree with their bands before a plan counts as confirmed. */
const agreeing = 2

function ofReading(row: AsBuiltRow, note: string): RecordBlank[] {
  const where = 'Transformer'
  if (row.measured === null)
    return needed.includes(row.field) ? [{ where, what: `${row.what} is not measured.`, stops: true }] : []
  const blanks: RecordBlank[] = []
  if (row.measured.instrument.trim() === '')
    blanks.push({ where, what: `${row.what}: the instrument is not named.`, stops: true })
  if (row.unit === 'H' && row.measured.frequency_Hz === null)
    blanks.push({ where, what: `${row.what}: the frequency of the reading is not said.`, stops: true })
  if (!row.agrees && note.trim() === '')
    blanks.push({
      where,
      what: `${row.what} reads ${formatQuantity(row.measured.value, row.unit)} against ${bandWords(row)}, and no note says why.`,
      stops: true,
    })
  return blanks
}

/**
 * What a build record leaves out: blanks that would stop a rebuild first. Empty only where the transformer is
 * measured with instrument and frequency, two readings agree with their bands, and each deviation is explained.
 */
export function recordBlanks(evaluation: Evaluation, limits: readonly Limit[]): RecordBlank[] {
  const { supply, need, parts, transformer } = evaluation.design
  const { log, asBuilt } = supply.bench
  const { sections } = transformer.coil.layout
  const rows = asBuiltRows(evaluation)
  const said = (pattern: RegExp) =>
    pattern.test(supply.note) || log.some((e) => pattern.test(`${e.step} ${e.check} ${e.note}`))
  const blanks: RecordBlank[] = []
  const blank = (where: string, what: string, stops: boolean, when: boolean) => {
    if (when) blanks.push({ where, what, stops })
  }
  for (const { pin, nets } of crowdedPins(sections))
    blank('Transformer', `Pin ${pin} is given to ${nets.join(' and to ')} at once.`, true, true)
  for (const name of fightingParts(sections))
    blank('Transformer', `${name} turns against the rest of its winding.`, true, true)
  for (const row of rows) blanks.push(...ofReading(row, supply.note))
  blank(
    'Transformer',
    `Fewer than ${agreeing} readings agree with their bands.`,
    true,
    rows.filter((row) => row.agrees).length < agreeing,
  )
  blank('Core', 'The grade of the ferrite is not known.', false, /unknown/i.test(parts.material.class))
  blank('Bench', 'Nothing is in the bench log: this build has not been proved.', true, log.length === 0)
  blank(
    'Bench',
    'It is not said whether the insulation was tested.',
    true,
    asBuilt.insulation_ohm == null && !said(/insulation|withstand|hipot/i),
  )
  const short = limits.filter((limit) => !limit.holds).length
  blank('Limits', `${short} of the limits do not hold by calculation.`, false, short > 0)
  blank('Bulk', 'The bulk capacitance is not measured.', false, asBuilt.bulkCapacitance_F === null)
  blank('Board', 'Its creepage is not measured.', false, typeof supply.build.boardCreepage_m !== 'number')
  blank('Need', 'What the supply is for is not said.', false, !need.note && supply.note.trim() === '')
  blank('Licence', 'No licence is named in the note.', false, !/licen[cs]e/i.test(supply.note))
  return blanks.sort((a, b) => Number(b.stops) - Number(a.stops))
}
