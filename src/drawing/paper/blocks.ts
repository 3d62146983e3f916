import type { Block, Cell, FigureName, Step, Tally } from '../../engine/papers/document.ts'
import { el, type SvgNode } from '../svg/node.ts'

/** Drawings by name, made by the caller from the same supply; a figure that is not there is left out. */
export type Figures = Partial<Record<FigureName, SvgNode>>

type Columns = Extract<Block, { kind: 'table' }>['columns']

const tickBox = (): SvgNode => el('span', { class: 'tick', 'aria-label': 'tick when done', role: 'img' }, '')
const writeOn = (): SvgNode => el('span', { class: 'blank' }, ' ')

const cellNode = (cell: Cell, number: boolean, span?: number, title?: string): SvgNode => {
  const across = { ...(span !== undefined && { colSpan: span }), ...(title && { 'data-title': title }) }
  if (cell.kind === 'tick') return el('td', { class: 'tick-cell', ...across }, tickBox())
  if (cell.kind === 'blank') return el('td', { class: 'blank-cell', ...across }, writeOn(), ` ${cell.text}`)
  const className = [number || cell.kind === 'number' ? 'number' : '', cell.kind === 'strong' ? 'strong' : '']
    .filter(Boolean)
    .join(' ')
  return el('td', { ...(className && { class: className }), ...across }, cell.text)
}

const head = (columns: Columns): SvgNode =>
  el(
    'thead',
    {},
    el(
      'tr',
      {},
      ...columns.map((column) =>
        column.title === ''
          ? el('td', {}, '')
          : el('th', { scope: 'col', class: column.number ? 'number' : undefined }, column.title),
      ),
    ),
  )

const caption = (text: string): SvgNode | null => (text ? el('caption', {}, text) : null)

const tableNode = (block: Extract<Block, { kind: 'table' }>): SvgNode =>
  el(
    'table',
    {},
    caption(block.caption),
    head(block.columns),
    el(
      'tbody',
      {},
      ...block.rows.map((row) =>
        el('tr', {}, ...row.map((cell, column) => cellNode(cell, block.columns[column]?.number === true))),
      ),
    ),
  )

/** Strip of boxes, one a group of turns, to tick while winding; a strong edge where a layer is full. */
function tallyNode({ label, count, every, layerEnds }: Tally): SvgNode {
  const marks = new Set(layerEnds)
  for (let turn = every; turn < count; turn += every) marks.add(turn)
  marks.add(count)
  const boxes = [...marks]
    .sort((a, b) => a - b)
    .map((turn) => {
      const end = layerEnds.includes(turn) || turn === count
      return el('span', { class: end ? 'tally-box is-end' : 'tally-box' }, String(turn))
    })
  return el(
    'div',
    { class: 'tally', role: 'img', 'aria-label': `${label}: tick off ${count} turns` },
    ...boxes,
  )
}

const checkNode = ({ what, expect, unit }: Step['checks'][number]): SvgNode =>
  el('span', { class: 'check' }, tickBox(), ` ${what} `, el('b', {}, expect), ' ', writeOn(), ` ${unit}`)

/** One step: its row, and below it what to count, to lay and to read. */
function stepNode(step: Step, columns: Columns): SvgNode {
  const { cells } = step
  const last = cells.length - 1
  const span = columns.length - last
  const more = step.tally !== null || step.notes.length > 0 || step.checks.length > 0
  return el(
    'tbody',
    { class: 'step' },
    el(
      'tr',
      {},
      ...cells.map((cell, column) =>
        column === last && span > 1
          ? cellNode(cell, false, span)
          : cellNode(cell, columns[column]?.number === true, undefined, columns[column]?.title),
      ),
    ),
    more
      ? el(
          'tr',
          { class: 'step-more' },
          el('td', {}, ''),
          el(
            'td',
            { colSpan: columns.length - 1 },
            el(
              'div',
              { class: 'step-after' },
              el(
                'div',
                { class: 'step-job' },
                step.tally ? tallyNode(step.tally) : null,
                el('div', { class: 'step-notes' }, step.notes.join(' ')),
              ),
              step.checks.length > 0 ? el('div', { class: 'checks' }, ...step.checks.map(checkNode)) : null,
            ),
          ),
        )
      : null,
  )
}

const plateNode = (block: Extract<Block, { kind: 'plate' }>): SvgNode =>
  el(
    'div',
    { class: 'plate' },
    el('div', { class: 'plate-title' }, block.title),
    ...block.rows.map((row) =>
      el(
        'div',
        { class: `plate-row is-${row.weight}` },
        row.label ? el('span', { class: 'plate-label' }, row.label) : null,
        el('span', {}, row.value),
      ),
    ),
  )

/** One block of a paper; null where a figure is not there. */
export function blockNode(block: Block, figures: Figures): SvgNode | null {
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
      return tableNode(block)
    case 'steps':
      return el(
        'table',
        { class: 'steps' },
        caption(block.caption),
        head(block.columns),
        ...block.steps.map((step) => stepNode(step, block.columns)),
      )
    case 'list':
      return el(
        'ul',
        { class: block.ticked ? 'list is-ticked' : 'list' },
        ...block.items.map((item) =>
          el('li', {}, block.ticked ? tickBox() : null, block.ticked ? ' ' : null, item),
        ),
      )
    case 'blanks':
      return el(
        'div',
        { class: 'blanks' },
        ...block.labels.map((label) => el('span', { class: 'fill' }, `${label} `, writeOn())),
      )
    case 'plate':
      return plateNode(block)
    case 'figure': {
      const drawing = figures[block.figure]
      return drawing
        ? el(
            'figure',
            { class: `figure-${block.figure}` },
            drawing,
            block.caption ? el('figcaption', {}, block.caption) : null,
          )
        : null
    }
    case 'columns':
      return el(
        'div',
        {
          class: 'columns',
          ...(block.widths && { 'data-widths': block.widths.join(':') }),
        },
        ...block.columns.map((column) => el('div', {}, ...column.map((inner) => blockNode(inner, figures)))),
      )
    case 'page-break':
      return el('div', { class: 'page-break' }, '')
  }
}
