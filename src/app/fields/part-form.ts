import { cellText, readCell } from '../../engine/parts/csv-cell.ts'
import { type FieldColumn, partColumns, tableUnit } from '../../engine/parts/csv-columns.ts'
import { type Part, type PartKind, part as partSchema } from '../../engine/parts/part.ts'
import { formatQuantity } from '../../engine/quantity/index.ts'

/** Fields of a part as a form shows them: every column of its kind but the id, which follows from the name. */
export const formColumns = (kind: PartKind): FieldColumn[] =>
  [...(partColumns().get(kind)?.values() ?? [])].filter((c) => c.path !== 'id')

const valueAt = (part: Part, path: string): unknown =>
  path.split('.').reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], part)

/** What stands in a field for the part's value. */
export const fieldText = (part: Part, { path, cell }: FieldColumn): string => {
  const value = valueAt(part, path)
  if (value === undefined) return ''
  if (cell.form === 'number') return formatQuantity(value as number, cell.unit, 6)
  return cellText(value, cell)
}

/** `junctionToCase_K_per_W` as `Junction to case`. */
export const fieldLabel = (path: string): string =>
  path
    .split('.')
    .map((key) => {
      const name = key.replace(/_.*$/, '')
      const words = name.length <= 2 ? name : name.replace(/([a-z])([A-Z0-9])/g, '$1 $2').toLowerCase()
      return words.charAt(0).toUpperCase() + words.slice(1)
    })
    .join(', ')

/** Unit that a bare number takes in this field. */
export const fieldUnit = ({ cell }: FieldColumn): string =>
  cell.form === 'number' || cell.form === 'spread' ? tableUnit(cell.unit)[0].replace('ohm', 'Ω') : ''

const put = (raw: Record<string, unknown>, path: string, value: unknown): void => {
  const keys = path.split('.')
  const last = keys.pop()!
  let at = raw
  for (const key of keys) {
    at[key] ??= {}
    at = at[key] as Record<string, unknown>
  }
  at[last] = value
}

export type FormResult =
  | { readonly ok: true; readonly part: Part }
  | { readonly ok: false; readonly errors: Readonly<Record<string, string>> }

/** The part that a filled form means, or a sentence for each field that is wrong, by path. */
export const readForm = (kind: PartKind, id: string, texts: Readonly<Record<string, string>>): FormResult => {
  const raw: Record<string, unknown> = { kind, id }
  const errors: Record<string, string> = {}
  for (const column of formColumns(kind)) {
    const text = texts[column.path] ?? ''
    if (text.trim() === '') {
      if (column.cell.form === 'text' && !column.optional) put(raw, column.path, '')
      continue
    }
    const read = readCell(text, column.cell, undefined)
    if (read.ok) put(raw, column.path, read.value)
    else errors[column.path] = read.message
  }
  if (Object.keys(errors).length > 0) return { ok: false, errors }
  const checked = partSchema.safeParse(raw)
  if (checked.success) return { ok: true, part: checked.data }
  for (const issue of checked.error.issues) {
    const path = issue.path.map(String).join('.')
    const column = formColumns(kind).find((c) => path === c.path || path.startsWith(`${c.path}.`))
    errors[column?.path ?? 'name'] ??= issue.message
  }
  return { ok: false, errors }
}
