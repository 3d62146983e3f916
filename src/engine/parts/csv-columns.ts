import { parseQuantity, type Unit, unitOfField } from '../quantity/index.ts'
import { type PartKind, part } from './part.ts'

/** What one cell of a part holds. */
export type CellForm =
  | { readonly form: 'number'; readonly unit: Unit }
  | { readonly form: 'spread'; readonly unit: Unit }
  | { readonly form: 'text' }
  | { readonly form: 'flag' }
  | { readonly form: 'choice'; readonly values: readonly (string | number)[] }
  | { readonly form: 'list' }
  | { readonly form: 'points'; readonly fields: readonly { readonly key: string; readonly unit: Unit }[] }

/** One field of a kind of part, as a column: where it sits in the part and what its cell holds. */
export interface FieldColumn {
  readonly path: string
  readonly cell: CellForm
  readonly optional: boolean
}

/** The little of a schema's inside that a table needs. */
interface SchemaNode {
  readonly def: {
    readonly type: string
    readonly innerType?: SchemaNode
    readonly options?: readonly SchemaNode[]
    readonly element?: SchemaNode
    readonly shape?: Readonly<Record<string, SchemaNode>>
    readonly values?: readonly (string | number)[]
    readonly entries?: Readonly<Record<string, string>>
  }
}

const choicesOf = (node: SchemaNode): readonly (string | number)[] => {
  if (node.def.values) return node.def.values
  if (node.def.entries) return Object.values(node.def.entries)
  return node.def.options!.flatMap(choicesOf)
}

const isSpread = (node: SchemaNode) => Object.keys(node.def.shape ?? {}).join() === 'minimum,typical,maximum'
const lastKey = (path: string) => path.slice(path.lastIndexOf('.') + 1)

function cellOf(node: SchemaNode, path: string): CellForm | undefined {
  const { type, element } = node.def
  if (type === 'number') return { form: 'number', unit: unitOfField(lastKey(path)) }
  if (type === 'string') return { form: 'text' }
  if (type === 'boolean') return { form: 'flag' }
  if (isSpread(node)) return { form: 'spread', unit: unitOfField(lastKey(path)) }
  if (type === 'array' && element!.def.type === 'string') return { form: 'list' }
  if (type === 'array')
    return {
      form: 'points',
      fields: Object.keys(element!.def.shape!).map((key) => ({ key, unit: unitOfField(key) })),
    }
  const plainUnion = type === 'union' && !node.def.options!.some((option) => option.def.shape)
  return type === 'enum' || type === 'literal' || plainUnion
    ? { form: 'choice', values: choicesOf(node) }
    : undefined
}

/** Columns of a schema; those of a choice between objects are put together, each then optional. */
function columnsOf(node: SchemaNode, path: string, optional: boolean): FieldColumn[] {
  if (node.def.type === 'optional') return columnsOf(node.def.innerType!, path, true)
  const cell = cellOf(node, path)
  if (cell) return [{ path, cell, optional }]
  if (node.def.type === 'union') return merged(node.def.options!.flatMap((o) => columnsOf(o, path, optional)))
  return Object.entries(node.def.shape!).flatMap(([key, child]) =>
    columnsOf(child, path === '' ? key : `${path}.${key}`, optional),
  )
}

function merged(columns: readonly FieldColumn[]): FieldColumn[] {
  const byPath = new Map<string, FieldColumn>()
  for (const column of columns) {
    const known = byPath.get(column.path)
    const both =
      known?.cell.form === 'choice' && column.cell.form === 'choice'
        ? {
            ...known,
            cell: {
              form: 'choice' as const,
              values: [...new Set([...known.cell.values, ...column.cell.values])],
            },
          }
        : (known ?? column)
    byPath.set(column.path, both)
  }
  return [...byPath.values()]
}

/** Kind of a member of the union of parts (a wire is itself a choice of constructions). */
const kindOf = (node: SchemaNode): PartKind =>
  node.def.shape ? (node.def.shape.kind!.def.values![0] as PartKind) : kindOf(node.def.options![0]!)

let cached: ReadonlyMap<PartKind, ReadonlyMap<string, FieldColumn>> | undefined

/** Every kind of part with its columns by path, in the order of its schema; `kind` itself is left out. */
export function partColumns(): ReadonlyMap<PartKind, ReadonlyMap<string, FieldColumn>> {
  cached ??= new Map(
    (part as unknown as SchemaNode).def.options!.map((node) => {
      const columns = columnsOf(node, '', false).filter((column) => column.path !== 'kind')
      return [kindOf(node), new Map(columns.map((column) => [column.path, column]))]
    }),
  )
  return cached
}

/** Units in which a table shows a quantity, where the SI unit would be unhandy, and their power of ten. */
const handy: Partial<Record<Unit, readonly [name: string, power: number]>> = {
  m: ['mm', 3],
  m2: ['mm2', 6],
  m3: ['mm3', 9],
  F: ['uF', 6],
  H: ['uH', 6],
}

export const tableUnit = (unit: Unit): readonly [name: string, power: number] =>
  handy[unit] ?? [unit === 'fraction' || unit === '1' ? '' : unit, 0]

/** Name of a unit without a multiple, as points of a curve use it. */
export const pointUnit = (unit: Unit) => (unit === 'fraction' || unit === '1' ? '' : unit)

/** `dimensions.A_m` as it stands in a header without its unit: `dimensions.A`. */
const baseOf = (column: FieldColumn) => {
  const { form } = column.cell
  return form === 'number' || form === 'spread' ? column.path.replace(/_[^.]*$/, '') : column.path
}

const bracketOf = ({ cell }: FieldColumn) => {
  if (cell.form === 'number' || cell.form === 'spread') return tableUnit(cell.unit)[0]
  return cell.form === 'points' ? cell.fields.map((field) => pointUnit(field.unit) || '1').join(' ') : ''
}

/** Header of a column: `dimensions.A [mm]`, `lossPoints [Hz T C W/m3]`, `name`. */
export const headerOf = (column: FieldColumn) => {
  const unit = bracketOf(column)
  return unit === '' ? baseOf(column) : `${baseOf(column)} [${unit}]`
}

/**
 * Paths that a header can stand for, with the unit that it gives to bare numbers. Headers are compared without
 * case; the unit may be another of the same quantity, or be left out.
 */
export function pathsOfHeader(header: string): {
  readonly paths: ReadonlySet<string>
  readonly unit?: string
} {
  const [, name = '', unit] = /^(.*?)\s*(?:\[(.*)\])?$/.exec(header.trim())!
  const wanted = name.toLowerCase()
  const paths = new Set<string>()
  for (const columns of partColumns().values())
    for (const column of columns.values()) {
      const alike = [baseOf(column), column.path].some((text) => text.toLowerCase() === wanted)
      if (alike && (unit === undefined || unitFits(column, unit))) paths.add(column.path)
    }
  if (unit !== undefined) return { paths, unit }
  const exact = [...paths].filter((path) => path.toLowerCase() === wanted)
  return { paths: exact.length > 0 ? new Set(exact) : paths }
}

const unitFits = (column: FieldColumn, unit: string) => {
  const { cell } = column
  if (cell.form === 'number' || cell.form === 'spread') return parseQuantity('1', cell.unit, unit).ok
  return bracketOf(column) === unit
}
