import type { Limit } from '../limits/limit.ts'
import { formatQuantity } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { asBuiltTable } from './as-built.ts'
import { type Block, figureCell, type Paper, words } from './document.ts'
import { foot, inputWords, subtitle } from './heading.ts'
import { recordBlanks } from './record-blanks.ts'

/** The bench log as it was written, in order; nothing is left out. */
function logTable(evaluation: Evaluation): Block[] {
  const { log } = evaluation.design.supply.bench
  if (log.length === 0) return []
  return [
    {
      kind: 'table',
      caption: 'Bench log, as written',
      columns: [
        { title: 'When' },
        { title: 'Step' },
        { title: 'Check' },
        { title: 'Read', number: true },
        { title: 'With' },
        { title: 'Note' },
      ],
      rows: log.map((entry) => [
        words(entry.at),
        words(entry.step),
        words(entry.check),
        figureCell(entry.value === null ? '' : `${Number(entry.value.toPrecision(6))} ${entry.unit}`),
        words(entry.instrument),
        words(entry.note),
      ]),
    },
  ]
}

/** First page of a build record: what it is for, what is still blank, planned against measured, and the raw log. */
export function recordFront(evaluation: Evaluation, limits: readonly Limit[], withLog: boolean): Paper {
  const { supply, need } = evaluation.design
  const blanks = recordBlanks(evaluation, limits)
  const stopping = blanks.filter((blank) => blank.stops)
  const asked = blanks.filter((blank) => !blank.stops)
  const sentences = (list: typeof blanks): Block => ({
    kind: 'list',
    ticked: false,
    items: list.map(({ where, what }) => `${where}: ${what}`),
  })
  return {
    id: 'record',
    title: 'Build record',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      {
        kind: 'facts',
        facts: [
          { label: 'Revision', value: supply.revision },
          { label: 'Input', value: inputWords(evaluation) },
          {
            label: 'Output',
            value: `${formatQuantity(need.output_V, 'V')} ${formatQuantity(need.output_A, 'A')}`,
          },
          { label: 'Air', value: `up to ${formatQuantity(need.ambient_C, 'C')}` },
          { label: 'Insulation', value: `${need.insulation}, as planned; not certified` },
        ],
      },
      ...(need.note ? [{ kind: 'paragraph', text: need.note } as const] : []),
      ...(supply.note ? [{ kind: 'paragraph', text: supply.note } as const] : []),
      {
        kind: 'caution',
        text: 'This is one builder’s record, no proof that yours is like it. Build it only if you are competent to work on mains and your law allows it; walk the barrier with a ruler, read the test card, and follow the power-up plan stage by stage.',
      },
      {
        kind: 'heading',
        text: stopping.length > 0 ? 'Blanks that would stop a rebuild' : 'No blank stops a rebuild',
      },
      ...(stopping.length > 0 ? [sentences(stopping)] : []),
      ...(asked.length > 0
        ? [{ kind: 'heading', text: 'What a second builder would ask' } as const, sentences(asked)]
        : []),
      asBuiltTable(evaluation),
      ...(withLog ? logTable(evaluation) : []),
      {
        kind: 'paragraph',
        text: 'The project file stands at the end of this page. Open the page in Gapwright to go on from it.',
      },
    ],
  }
}
