import type { Assessment } from '../limits/assess.ts'
import type { Drawer } from '../parts/part.ts'
import { boardNotes } from './board-notes.ts'
import { buildOrder } from './build-order.ts'
import type { Paper } from './document.ts'
import { label } from './label.ts'
import { partsList } from './parts-list.ts'
import { report } from './report.ts'
import { schematicPaper } from './schematic-paper.ts'
import { windingSheet } from './winding-sheet.ts'

/** How each paper is made from a judged supply; the drawer tells what is at hand. */
const makers = {
  'winding-sheet': ({ evaluation }) => windingSheet(evaluation),
  schematic: ({ evaluation }) => schematicPaper(evaluation),
  'parts-list': ({ evaluation, limits }, drawer) => partsList(evaluation, limits, drawer),
  'build-order': ({ evaluation }) => buildOrder(evaluation),
  'board-notes': ({ evaluation, limits }) => boardNotes(evaluation, limits),
  label: ({ evaluation }) => label(evaluation),
  report: ({ evaluation, limits }) => report(evaluation, limits),
} as const satisfies Partial<Record<Paper['id'], (assessment: Assessment, drawer: Drawer | null) => Paper>>

/** Papers that follow from the supply alone. */
export type PaperName = keyof typeof makers

/** Every paper, in the order in which they are used at the bench. */
export const paperNames = Object.keys(makers) as readonly PaperName[]

/** One paper as data. */
export const paperOf = (name: PaperName, assessment: Assessment, drawer: Drawer | null): Paper =>
  makers[name](assessment, drawer)
