import { cellText } from './csv-cell.ts'
import { type FieldColumn, headerOf, partColumns } from './csv-columns.ts'
import { type CsvRecord, withoutFormula, writeCsv } from './csv-text.ts'
import type { Drawer, Part } from './part.ts'

const valueAt = (part: Part, path: string): unknown =>
  path.split('.').reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], part)

const commonPaths = ['id', 'name', 'price', 'source', 'note']

/** The columns that every part has, then those that the parts use, in the order in which their kinds come. */
function usedColumns(drawer: Drawer): FieldColumn[] {
  const [anyKind] = partColumns().values()
  const used = new Map(
    commonPaths.map((path) => anyKind!.get(path)!).map((column) => [headerOf(column), column] as const),
  )
  for (const { part } of drawer.entries)
    for (const column of partColumns().get(part.kind)!.values())
      if (!used.has(headerOf(column)) && valueAt(part, column.path) !== undefined)
        used.set(headerOf(column), column)
  return [...used.values()]
}

/**
 * A drawer as one table by RFC 4180: a column for the kind, one for the quantity (empty: enough, not counted) and
 * one for each field with its unit in the header. `importDrawerCsv` gives back the very same parts. Text that a
 * spreadsheet would take for a formula carries an apostrophe.
 */
export function exportDrawerCsv(drawer: Drawer, separator: ',' | ';' = ','): string {
  const columns = usedColumns(drawer)
  const rows = drawer.entries.map(({ part, quantity }): CsvRecord => {
    const own = partColumns().get(part.kind)!
    const cells = columns.map((column) => {
      const mine = own.get(column.path)
      const value = valueAt(part, column.path)
      return mine === undefined || value === undefined ? null : withoutFormula(cellText(value, mine.cell))
    })
    return [part.kind, quantity === null ? null : String(quantity), ...cells]
  })
  return writeCsv([['kind', 'quantity', ...columns.map(headerOf)], ...rows], separator)
}
