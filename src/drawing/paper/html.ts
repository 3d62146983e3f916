import type { Paper } from '../../engine/papers/document.ts'
import { el, type SvgNode } from '../svg/node.ts'
import { blockNode, type Figures } from './blocks.ts'

export type { Figures } from './blocks.ts'

/** A paper as one article, for the page's print view and for the record. */
export const paperNode = (paper: Paper, figures: Figures): SvgNode =>
  el(
    'article',
    { class: `paper paper-${paper.id}`, 'aria-label': paper.title },
    el('header', {}, el('h1', {}, paper.title), el('p', { class: 'subtitle' }, paper.subtitle)),
    ...paper.blocks.map((block) => blockNode(block, figures)),
    el('footer', {}, paper.foot),
  )
