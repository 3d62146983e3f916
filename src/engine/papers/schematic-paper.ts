import type { Evaluation } from '../supply/evaluation.ts'
import type { Paper } from './document.ts'
import { foot, subtitle } from './heading.ts'

/** The schematic on a page of its own. */
export const schematicPaper = (evaluation: Evaluation): Paper => ({
  id: 'schematic',
  title: 'Schematic',
  subtitle: subtitle(evaluation),
  foot: foot(evaluation),
  blocks: [{ kind: 'figure', figure: 'schematic', caption: '' }],
})
