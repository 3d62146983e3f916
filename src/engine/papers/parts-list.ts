import type { Limit } from '../limits/limit.ts'
import { withoutFormula, writeCsv } from '../parts/csv-text.ts'
import type { Drawer } from '../parts/part.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { figureCell, type Paper, strong, tick, words } from './document.ts'
import { foot, subtitle } from './heading.ts'
import { type PartsRow, partsRows } from './parts-rows.ts'

const handWords: Record<PartsRow['atHand'], string> = {
  have: 'have',
  short: 'too few',
  buy: 'to buy',
  value: 'any',
  unasked: '',
}

/** Parts list by rating, with what every substitute must stand. */
export function partsList(evaluation: Evaluation, limits: readonly Limit[], drawer: Drawer | null): Paper {
  return {
    id: 'parts-list',
    title: 'Parts list',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      {
        kind: 'paragraph',
        text: `Parts by rating. A substitute serves when it stands what the fourth column says, fits the same pins and the same way round. Parts across the mains or the barrier carry their safety class.${drawer ? ' Any: a common value, not looked for in the drawer.' : ''}`,
      },
      {
        kind: 'table',
        caption: '',
        columns: [
          { title: '' },
          { title: 'Ref.' },
          { title: 'Take', number: true },
          { title: 'Part' },
          { title: 'Must stand here' },
          ...(drawer ? [{ title: 'Drawer' }] : []),
        ],
        rows: partsRows(evaluation, limits, drawer).map((row) => [
          tick,
          strong(row.reference),
          figureCell(row.amount),
          words(row.description),
          words(row.holds ? row.requirement : `OVER LIMIT: ${row.requirement}`),
          ...(drawer ? [words(handWords[row.atHand])] : []),
        ]),
      },
      {
        kind: 'paragraph',
        text: 'Not in the list, as case and board decide: board, terminals J1 and J2, holder of the fuse, mains lead and its clamp, screws, washers and paste of the heatsinks, case.',
      },
    ],
  }
}

/** Parts list as a CSV file. */
export function partsListCsv(
  evaluation: Evaluation,
  limits: readonly Limit[],
  drawer: Drawer | null,
): string {
  const head = ['reference', 'quantity', 'part', 'must stand', 'holds', 'drawer']
  const rows = partsRows(evaluation, limits, drawer).map((row) => [
    row.reference,
    row.amount,
    row.description,
    row.requirement,
    row.holds ? 'yes' : 'no',
    handWords[row.atHand],
  ])
  return writeCsv([head, ...rows.map((row) => row.map(withoutFormula))], ',')
}
