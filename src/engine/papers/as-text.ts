import type { Block, Cell, Paper } from './document.ts'

const cellText = (cell: Cell): string =>
  cell.kind === 'tick' ? '[ ]' : cell.kind === 'blank' ? `______ ${cell.text}`.trimEnd() : cell.text

/** Table with columns as wide as their widest cell, numbers to the right. */
function tableText(block: Extract<Block, { kind: 'table' }>): string {
  const rows = [block.columns.map((column) => column.title), ...block.rows.map((row) => row.map(cellText))]
  const widths = block.columns.map((_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length)))
  const lines = rows.map((row) =>
    row
      .map((text, column) =>
        block.columns[column]?.number ? text.padStart(widths[column]!) : text.padEnd(widths[column]!),
      )
      .join('  ')
      .trimEnd(),
  )
  lines.splice(1, 0, widths.map((width) => '-'.repeat(width)).join('  '))
  return [block.caption, ...lines].filter((line) => line !== '').join('\n')
}

function blockText(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `${block.text.toUpperCase()}`
    case 'paragraph':
      return block.text
    case 'caution':
      return `!! ${block.text}`
    case 'facts': {
      const width = Math.max(...block.facts.map((fact) => fact.label.length))
      return block.facts.map((fact) => `${fact.label.padEnd(width)}  ${fact.value}`).join('\n')
    }
    case 'table':
      return tableText(block)
    case 'tally':
      return `${block.label}: ${block.count} turns, tick every ${block.every}`
    case 'columns':
      return block.columns.map((column) => column.map(blockText).join('\n\n')).join('\n\n')
    case 'figure':
      return `(drawing on the printed page: ${block.caption})`
    case 'page-break':
      return ''
  }
}

/** A paper as plain text for a terminal. */
export const paperAsText = (paper: Paper): string =>
  [
    `${paper.title}\n${paper.subtitle}`,
    ...paper.blocks.map(blockText).filter((text) => text !== ''),
    paper.foot,
  ].join('\n\n')
