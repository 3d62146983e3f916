import { formatQuantity, type Unit } from '../quantity/index.ts'
import type { InsulationReading, LogEntry, Measured } from '../supply/bench-log.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { asBuiltRows } from './as-built.ts'
import { type Block, blank, figureCell, type Paper, strong, words } from './document.ts'
import { foot, subtitle } from './heading.ts'
import { bandWords, type CardCheck } from './power-up.ts'

/** Lines of an empty log, to be filled in by hand. */
const handRows = 24
const handRow = Array.from({ length: 7 }, () => blank(''))

/** A check with what was read against it, as much of it as the record prints. */
export interface LoggedCheck {
  readonly check: Pick<CardCheck, 'id' | 'what' | 'expected' | 'state'>
  readonly standing: string | null
}

const dateOf = (at: string): string => at.replace('T', ' ').slice(0, 16)

function readWords(entry: LogEntry, check: LoggedCheck['check'] | undefined): string {
  if (entry.value === null) return check?.state?.answers.find((a) => a.id === entry.note)?.label ?? ''
  const unit: Unit | undefined = check?.expected?.unit
  return unit ? formatQuantity(entry.value, unit) : `${entry.value} ${entry.unit}`.trimEnd()
}

/** Record of everything read at the bench, oldest first, each beside what was expected; failures are kept. */
export function benchLogPaper(
  evaluation: Evaluation,
  log: readonly LogEntry[],
  checks: readonly LoggedCheck[],
): Paper {
  const byId = new Map(checks.map((c) => [c.check.id, c]))
  const asBuilt = asBuiltRows(evaluation).flatMap(({ what, unit, measured }) =>
    measured === null
      ? []
      : [
          {
            label: `As built: ${what.charAt(0).toLowerCase()}${what.slice(1)}`,
            value: takenWith(measured, unit),
          },
        ],
  )
  const table: Block = {
    kind: 'table',
    caption:
      log.length === 0
        ? 'Nothing has been read yet. Lines to write on'
        : `${log.length} readings, oldest first`,
    columns: [
      { title: 'When' },
      { title: 'Read' },
      { title: 'Is', number: true },
      { title: 'Expected', number: true },
      { title: 'Stands' },
      { title: 'With' },
      { title: 'Note' },
    ],
    rows:
      log.length === 0
        ? Array.from({ length: handRows }, () => handRow)
        : log.map((entry, index) => {
            const known = byId.get(entry.check)
            const isLast = !log.slice(index + 1).some((later) => later.check === entry.check)
            const standing = isLast ? (known?.standing ?? '') : 'read again later'
            const bad = standing !== '' && !['in band', 'as expected', 'read again later'].includes(standing)
            return [
              words(dateOf(entry.at)),
              words(known?.check.what ?? entry.check),
              figureCell(readWords(entry, known?.check)),
              figureCell(known?.check.expected ? bandWords(known.check.expected) : ''),
              bad ? strong(standing) : words(standing),
              words(entry.instrument),
              words(known?.check.state ? '' : entry.note),
            ]
          }),
  }
  return {
    id: 'bench-log',
    title: 'Bench log',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      ...(asBuilt.length > 0 ? [{ kind: 'facts', facts: asBuilt } as const] : []),
      table,
      { kind: 'caution', text: 'Readings of an amateur bench. They certify nothing.' },
    ],
  }
}

/** A value with what it was read with. */
const takenWith = (measured: Measured | InsulationReading, unit: Unit): string => {
  const { value, instrument, frequency_Hz } = measured
  const test_V = 'test_V' in measured ? measured.test_V : null
  return [
    `${formatQuantity(value, unit)}, ${instrument}`,
    ...(frequency_Hz === null ? [] : [`at ${formatQuantity(frequency_Hz, 'Hz')}`]),
    ...(test_V === null ? [] : [`at ${formatQuantity(test_V, 'V')} dc`]),
  ].join(' ')
}
