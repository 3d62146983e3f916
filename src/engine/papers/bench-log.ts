import { formatQuantity, type Unit } from '../quantity/index.ts'
import type { LogEntry } from '../supply/bench-log.ts'
import type { Evaluation } from '../supply/evaluation.ts'
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
  const asBuilt = Object.entries(evaluation.design.supply.bench.asBuilt).filter(([, m]) => m !== null)
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
      ...(asBuilt.length > 0
        ? [
            {
              kind: 'facts',
              facts: asBuilt.map(([field, m]) => ({
                label: `As built: ${wordsOf(field)}`,
                value: `${formatQuantity(m!.value, unitFrom(field))}, ${m!.instrument}${m!.frequency_Hz === null ? '' : ` at ${formatQuantity(m!.frequency_Hz, 'Hz')}`}`,
              })),
            } as const,
          ]
        : []),
      table,
      { kind: 'caution', text: 'Readings of an amateur bench. They certify nothing.' },
    ],
  }
}

const unitFrom = (field: string): Unit => field.slice(field.indexOf('_') + 1) as Unit
const wordsOf = (field: string): string =>
  field.slice(0, field.indexOf('_')).replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
