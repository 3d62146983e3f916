import type { Paper } from '../../engine/papers/document.ts'
import { el, type SvgNode } from '../svg/node.ts'
import { blockNode, type Figures } from './blocks.ts'

export type { Figures } from './blocks.ts'

/** Windings beyond which a winding sheet is set smaller, so that it stays on one page. */
const usualSteps = 5
/** Letters of the line beside the title that fit two lines. */
const usualSubtitle = 130

const isDense = ({ id, subtitle, blocks }: Paper): boolean =>
  id === 'winding-sheet' &&
  (subtitle.length > usualSubtitle ||
    blocks.some((block) => block.kind === 'steps' && block.steps.length > usualSteps))

/** A paper as one article, for the page's print view and for the record. */
export const paperNode = (paper: Paper, figures: Figures): SvgNode =>
  el(
    'article',
    { class: `paper paper-${paper.id}${isDense(paper) ? ' is-dense' : ''}`, 'aria-label': paper.title },
    el('header', {}, el('h1', {}, paper.title), el('p', { class: 'subtitle' }, paper.subtitle)),
    ...paper.blocks.map((block) => blockNode(block, figures)),
    el('footer', {}, paper.foot),
  )
