import { formatQuantity, parseQuantity } from '../quantity/index.ts'
import { readCell } from './csv-cell.ts'
import { type FieldColumn, partColumns, pathsOfHeader } from './csv-columns.ts'
import { type CsvRecord, readCsv, withFormula } from './csv-text.ts'
import { type Drawer, type DrawerEntry, type PartKind, part } from './part.ts'

/** What is wrong with one cell. Rows count from 1 at the header, as a spreadsheet shows them. */
export interface CsvProblem {
  readonly row: number
  readonly column: string
  readonly value: string
  readonly message: string
}

export type CsvImport =
  | { readonly ok: true; readonly drawer: Drawer }
  | { readonly ok: false; readonly problems: readonly CsvProblem[] }

interface Header {
  readonly text: string
  readonly paths: ReadonlySet<string>
  readonly unit?: string
}

/** No more problems than a person will read. */
const problemLimit = 100

/**
 * Reads a drawer from a table as `exportDrawerCsv` writes it or as people edit it: columns in any order, quantities
 * as people type them, semicolons, a byte order mark, any newline. All cells are checked against the schema of
 * their kind; nothing is taken when one is wrong.
 */
export function importDrawerCsv(text: string, name: string): CsvImport {
  const table = readCsv(text)
  if (!table.ok)
    return { ok: false, problems: [{ row: table.row, column: '', value: '', message: table.message }] }
  const problems: CsvProblem[] = []
  const headers = readHeaders(table.records[0] ?? [], problems)
  const entries: DrawerEntry[] = []
  const rowOfId = new Map<string, number>()
  if (problems.length === 0)
    table.records.forEach((record, index) => {
      if (index === 0 || record.length === 0 || problems.length >= problemLimit) return
      const entry = readRow(record, headers, index + 1, problems)
      if (!entry) return
      const earlier = rowOfId.get(entry.part.id)
      if (earlier !== undefined)
        problems.push({
          row: index + 1,
          column: 'id',
          value: entry.part.id,
          message: `this id is already used in row ${earlier}`,
        })
      rowOfId.set(entry.part.id, index + 1)
      entries.push(entry)
    })
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, problemLimit) }
  return { ok: true, drawer: { format: 'gapwright-drawer', version: 1, name, entries } }
}

function readHeaders(record: CsvRecord, problems: CsvProblem[]): Header[] {
  const seen = new Set<string>()
  const headers = record.map((cell): Header => {
    const text = withFormula(cell ?? '').trim()
    const key = text.toLowerCase()
    const complain = (message: string) => problems.push({ row: 1, column: text, value: text, message })
    if (text !== '' && seen.has(key)) complain('this column stands twice')
    seen.add(key)
    if (text === '' || key === 'kind' || key === 'quantity') return { text, paths: new Set() }
    const found = pathsOfHeader(text)
    if (found.paths.size === 0) complain('no kind of part has such a field with such a unit')
    return { text, ...found }
  })
  for (const needed of ['kind', 'id'])
    if (!seen.has(needed))
      problems.push({ row: 1, column: needed, value: '', message: `the table has no column ${needed}` })
  return headers
}

function readRow(record: CsvRecord, headers: readonly Header[], row: number, problems: CsvProblem[]) {
  const before = problems.length
  const complain = (column: string, value: string, message: string) =>
    problems.push({ row, column, value, message })
  const cellUnder = (name: string) => record[headers.findIndex((h) => h.text.toLowerCase() === name)] ?? null
  const kind = (cellUnder('kind') ?? '').trim()
  const columns = partColumns().get(kind as PartKind)
  if (!columns) {
    complain('kind', kind, `must be one of ${[...partColumns().keys()].join(', ')}`)
    return undefined
  }
  const raw: Record<string, unknown> = { kind }
  const headerOfPath = new Map<string, string>()
  record.forEach((cell, i) => {
    const header = headers[i]
    if (!header || header.text === '') {
      if (cell !== null && cell.trim() !== '') complain('', cell, 'this cell stands under no header')
      return
    }
    const path = [...header.paths].find((p) => columns.has(p))
    if (path) headerOfPath.set(path, header.text)
    if (cell === null || header.paths.size === 0) return
    if (!path) {
      if (cell.trim() !== '') complain(header.text, cell, `a part of kind ${kind} has no such field`)
      return
    }
    const { cell: form } = columns.get(path)!
    const typed = withFormula(cell)
    if (form.form !== 'text' && typed.trim() === '') return
    const read = readCell(typed, form, header.unit)
    if (read.ok) put(raw, path, read.value)
    else complain(header.text, cell, read.message)
  })
  for (const column of columns.values())
    if (mustBeText(column) && column.path in raw === false) put(raw, column.path, '')
  const quantity = readCount(cellUnder('quantity'), (value, message) => complain('quantity', value, message))
  if (problems.length > before) return undefined
  const checked = part.safeParse(raw)
  if (checked.success) return { part: checked.data, quantity }
  for (const issue of checked.error.issues) {
    const path = issue.path.map(String).join('.')
    const column = columnAt(columns, path)
    const header = (column && headerOfPath.get(column.path)) ?? column?.path ?? path
    const value = record[headers.findIndex((h) => h.text === header)] ?? ''
    complain(header, value, sentence(issue, column))
  }
  return undefined
}

/** A required text that is left empty is an empty text; an optional one is absent. */
const mustBeText = ({ cell, optional, path }: FieldColumn) =>
  cell.form === 'text' && !optional && !path.includes('.') && path !== 'id' && path !== 'name'

function readCount(cell: string | null, complain: (value: string, message: string) => void): number | null {
  if (cell === null || cell.trim() === '') return null
  const read = parseQuantity(cell, '1')
  if (!read.ok) complain(cell, read.message)
  else if (!(read.value >= 0 && read.value <= 1e6))
    complain(cell, 'must be 0 to 1000000, or empty for enough')
  return read.ok ? read.value : null
}

function put(target: Record<string, unknown>, path: string, value: unknown) {
  const keys = path.split('.')
  let at = target
  for (const key of keys.slice(0, -1)) {
    at[key] ??= {}
    at = at[key] as Record<string, unknown>
  }
  at[keys[keys.length - 1]!] = value
}

/** The column of a schema issue: its own path or the nearest one above. */
function columnAt(columns: ReadonlyMap<string, FieldColumn>, path: string): FieldColumn | undefined {
  if (columns.has(path)) return columns.get(path)
  const cut = path.lastIndexOf('.')
  return cut < 0 ? undefined : columnAt(columns, path.slice(0, cut))
}

type Issue = NonNullable<ReturnType<typeof part.safeParse>['error']>['issues'][number]

/** A schema issue as a sentence that names the limit in the unit of the field. */
function sentence(issue: Issue, column: FieldColumn | undefined): string {
  const unit = column && 'unit' in column.cell ? column.cell.unit : undefined
  const show = (limit: number | bigint) => (unit ? formatQuantity(Number(limit), unit) : String(limit))
  if (issue.code === 'too_big')
    return `must be ${issue.inclusive === false ? 'below' : 'at most'} ${show(issue.maximum)}`
  if (issue.code === 'too_small')
    return `must be ${issue.inclusive === false ? 'above' : 'at least'} ${show(issue.minimum)}`
  if (issue.code === 'invalid_type') return 'is missing'
  if (issue.code === 'unrecognized_keys')
    return `has fields that do not go together here: ${issue.keys.join(', ')}`
  if (issue.code === 'invalid_union') return 'is missing, and decides which other fields the part has'
  return issue.message
}
