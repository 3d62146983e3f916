import type { Block, Cell, Paper, Step } from './document.ts'

const cellText = (cell: Cell): string =>
  cell.kind === 'tick' ? '[ ]' : cell.kind === 'blank' ? `______ ${cell.text}`.trimEnd() : cell.text

type TableLike = {
  readonly caption: string
  readonly columns: readonly { readonly title: string; readonly number?: boolean }[]
}

/** Lines of a table with columns as wide as their widest cell, numbers to the right; the first is the head. */
function tableLines({ columns }: TableLike, cells: readonly (readonly Cell[])[]): string[] {
  const rows = [columns.map((column) => column.title), ...cells.map((row) => row.map(cellText))]
  const widths = columns.map((_, column) =>
    Math.max(...rows.filter((row) => row.length === columns.length).map((row) => row[column]!.length)),
  )
  const lines = rows.map((row) =>
    (row.length < columns.length
      ? row
      : row.map((text, column) =>
          columns[column]?.number ? text.padStart(widths[column]!) : text.padEnd(widths[column]!),
        )
    )
      .join('  ')
      .trimEnd(),
  )
  lines.splice(1, 0, widths.map((width) => '-'.repeat(width)).join('  '))
  return lines
}

const stepTail = (step: Step): string[] => [
  ...(step.tally ? [`      count ${step.tally.count} turns, tick every ${step.tally.every}`] : []),
  ...step.notes.map((note) => `      ${note}`),
  ...step.checks.map((check) => `      [ ] ${check.what}: ${check.expect}  read ______ ${check.unit}`),
]

/** A table of steps, what follows each step under its row. */
function stepsText(block: Extract<Block, { kind: 'steps' }>): string {
  const [head, rule, ...rows] = tableLines(
    block,
    block.steps.map((step) => step.cells),
  )
  return [block.caption, head!, rule!, ...block.steps.flatMap((step, i) => [rows[i]!, ...stepTail(step)])]
    .filter((line) => line !== '')
    .join('\n')
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
      return [block.caption, ...tableLines(block, block.rows)].filter((line) => line !== '').join('\n')
    case 'steps':
      return stepsText(block)
    case 'list':
      return block.items.map((item) => `${block.ticked ? '[ ]' : '-'} ${item}`).join('\n')
    case 'blanks':
      return block.labels.map((label) => `${label} ____________`).join('   ')
    case 'plate':
      return [block.title, ...block.rows.map((row) => [row.label, row.value].filter(Boolean).join('  '))]
        .map((line) => `| ${line}`)
        .join('\n')
    case 'columns':
      return block.columns
        .flatMap((column) => column.map(blockText))
        .filter((text) => text !== '')
        .join('\n\n')
    case 'figure':
      return block.caption === ''
        ? `(drawing on the printed page: ${block.figure.replaceAll('-', ' ')})`
        : `(drawing on the printed page: ${block.caption})`
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
