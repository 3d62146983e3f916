import { formatQuantity } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import type { Block, Paper, PlateRow } from './document.ts'
import { foot, inputWords, subtitle } from './heading.ts'
import { steadyWorst } from './worst.ts'

/** Rows of the label of the finished unit. */
function rows(evaluation: Evaluation): PlateRow[] {
  const { need, parts, supply } = evaluation.design
  const input_A = steadyWorst(evaluation, 'inputCurrent_Arms')
  const usual = (label: string, value: string): PlateRow => ({ label, value, weight: 'usual' })
  const trim =
    need.trimLow_V < need.trimHigh_V
      ? `, trims ${formatQuantity(need.trimLow_V, 'V')} to ${formatQuantity(need.trimHigh_V, 'V')}`
      : ''
  return [
    { label: '', value: supply.name, weight: 'title' },
    usual(
      'Input',
      `${inputWords(evaluation)}${Number.isNaN(input_A) ? '' : `, up to ${formatQuantity(input_A, 'A', 2)}`}`,
    ),
    usual('Output', `${formatQuantity(need.output_V, 'V')} DC, ${formatQuantity(need.output_A, 'A')}${trim}`),
    usual(
      'Fuse',
      parts.fuse
        ? `${formatQuantity(parts.fuse.rated_A, 'A')} ${parts.fuse.speed === 'slow' ? 'T (slow)' : 'F (fast)'}, ${formatQuantity(parts.fuse.voltage_V, 'V')}; replace by the same`
        : 'none inside: fit one in the lead',
    ),
    usual('Air around', `up to ${formatQuantity(need.ambient_C, 'C')}, indoors, dry`),
    { label: '', value: 'DANGER: live parts inside, charged after unplugging.', weight: 'warning' },
    {
      label: '',
      value: 'Home-built. Not certified. Isolation is not proven by this label.',
      weight: 'warning',
    },
    usual('Revision', supply.revision),
    usual('Built, date', '____________________'),
  ]
}

/** The label of the finished unit, twice: one to stick on, one to keep. */
export function label(evaluation: Evaluation): Paper {
  const plate: Block = { kind: 'plate', title: 'Power supply', rows: rows(evaluation) }
  return {
    id: 'label',
    title: 'Label',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      {
        kind: 'paragraph',
        text: 'Cut out, fill in the date, and stick one on the case where it is read before the lid is opened.',
      },
      { kind: 'columns', columns: [[plate], [plate]] },
    ],
  }
}
