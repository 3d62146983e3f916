import type { Block, Cell, FigureName, Paper } from '../../engine/papers/document.ts'
import { el, type SvgNode } from '../svg/node.ts'

/** Drawings by name, made by the caller from the same supply; a figure that is not there is left out. */
export type Figures = Partial<Record<FigureName, SvgNode>>

const cellNode = (cell: Cell, number: boolean): SvgNode => {
  const className = [number || cell.kind === 'number' ? 'number' : '', cell.kind === 'strong' ? 'strong' : '']
    .filter(Boolean)
    .join(' ')
  const attributes = className ? { class: className } : {}
  if (cell.kind === 'tick')
    return el(
      'td',
      { class: 'tick-cell' },
      el('span', { class: 'tick', 'aria-label': 'tick when done', role: 'img' }, ''),
    )
  if (cell.kind === 'blank')
    return el('td', { class: 'blank-cell' }, el('span', { class: 'blank' }, ' '), ` ${cell.text}`)
  return el('td', attributes, cell.text)
}

/** Strip of boxes, one a group of turns, to tick while winding. */
function tallyNode(block: Extract<Block, { kind: 'tally' }>): SvgNode {
  const boxes: SvgNode[] = []
  for (let turn = block.every; turn < block.count; turn += block.every)
    boxes.push(el('span', { class: 'tally-box' }, String(turn)))
  boxes.push(el('span', { class: 'tally-box last' }, String(block.count)))
  return el('div', { class: 'tally' }, el('span', { class: 'tally-label' }, block.label), ...boxes)
}

function blockNode(block: Block, figures: Figures): SvgNode | null {
  switch (block.kind) {
    case 'heading':
      return el('h2', {}, block.text)
    case 'paragraph':
      return el('p', {}, block.text)
    case 'caution':
      return el('p', { class: 'caution' }, el('strong', {}, 'Mains. '), block.text)
    case 'facts':
      return el(
        'dl',
        { class: 'facts' },
        ...block.facts.map((fact) => el('div', {}, el('dt', {}, fact.label), el('dd', {}, fact.value))),
      )
    case 'table':
      return el(
        'table',
        {},
        block.caption ? el('caption', {}, block.caption) : null,
        el(
          'thead',
          {},
          el(
            'tr',
            {},
            ...block.columns.map((column) =>
              el('th', { scope: 'col', class: column.number ? 'number' : undefined }, column.title),
            ),
          ),
        ),
        el(
          'tbody',
          {},
          ...block.rows.map((row) =>
            el(
              'tr',
              {},
              ...row.map((cell, column) => cellNode(cell, block.columns[column]?.number === true)),
            ),
          ),
        ),
      )
    case 'tally':
      return tallyNode(block)
    case 'figure': {
      const drawing = figures[block.figure]
      return drawing
        ? el('figure', { class: `figure-${block.figure}` }, drawing, el('figcaption', {}, block.caption))
        : null
    }
    case 'columns':
      return el(
        'div',
        { class: 'columns' },
        ...block.columns.map((column) => el('div', {}, ...column.map((inner) => blockNode(inner, figures)))),
      )
    case 'page-break':
      return el('div', { class: 'page-break' }, '')
  }
}

/** A paper as one article, for the page's print view and for the record. */
export const paperNode = (paper: Paper, figures: Figures): SvgNode =>
  el(
    'article',
    { class: `paper paper-${paper.id}` },
    el('header', {}, el('h1', {}, paper.title), el('p', { class: 'subtitle' }, paper.subtitle)),
    ...paper.blocks.map((block) => blockNode(block, figures)),
    el('footer', {}, paper.foot),
  )
