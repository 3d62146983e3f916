import { supplyText } from '../../engine/file/file.ts'
import { recordFileId } from '../../engine/file/record.ts'
import type { Assessment } from '../../engine/limits/assess.ts'
import type { Paper } from '../../engine/papers/document.ts'
import { paperNames, paperOf } from '../../engine/papers/index.ts'
import { recordFront } from '../../engine/papers/record-front.ts'
import type { Drawer } from '../../engine/parts/part.ts'
import { paperNode } from '../paper/html.ts'
import { paperDocument, paperFigures } from '../paper/pages.ts'
import { el, type SvgNode } from '../svg/node.ts'

/**
 * The project file as plain text of the page: read by people and by `readRecord`, run by nothing. An element of text
 * needs no script, so a record keeps its file even where scripts are stripped.
 */
const fileNode = (text: string): SvgNode =>
  el(
    'details',
    { class: 'record-file' },
    el('summary', {}, 'Project file'),
    el('pre', { id: recordFileId }, text),
  )

/**
 * The build record: one HTML file with every paper, what was measured, and the project file inside. `more` are papers
 * made elsewhere, such as the power-up plan; they stand before the report.
 */
export function recordHtml(
  assessment: Assessment,
  drawer: Drawer | null,
  more: readonly Paper[] = [],
): string {
  const { evaluation, limits } = assessment
  const { supply } = evaluation.design
  const figures = paperFigures(assessment)
  const own = paperNames.map((name) => paperOf(name, assessment, drawer))
  const before = own.filter((paper) => paper.id !== 'report')
  const report = own.filter((paper) => paper.id === 'report')
  const withLog = !more.some((paper) => paper.id === 'bench-log')
  const papers = [recordFront(evaluation, limits, withLog), ...before, ...more, ...report]
  return paperDocument(`${supply.name}, revision ${supply.revision}: build record`, [
    ...papers.map((paper) => paperNode(paper, figures)),
    fileNode(supplyText(supply)),
  ])
}
