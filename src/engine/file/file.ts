import type { z } from 'zod'
import { type Drawer, drawer } from '../parts/part.ts'
import { type Supply, supply } from '../supply/supply.ts'
import { type JsonValue, readJson } from './json.ts'
import { type Format, migrate } from './migrate.ts'
import type { FileResult } from './problem.ts'
import { problemsOf } from './sentence.ts'
import { decodeUtf8 } from './utf8.ts'

/** Largest file that is read or written, in bytes of UTF-8. */
export const largestFile_B = 8 * 1024 * 1024

/** Most problems that are listed; a file with more is told so by the last. */
const mostProblems = 100

export const supplyFormat: Format = { name: 'gapwright-supply', version: 1, migrations: {} }
export const drawerFormat: Format = { name: 'gapwright-drawer', version: 1, migrations: {} }

/** Reads the text (or the bytes) of a supply file of any version; every problem comes with its path. */
export const readSupply = (content: string | Uint8Array): FileResult<Supply> =>
  readContent(content, supplyFormat, supply)

/** Reads the text (or the bytes) of a drawer file of any version; every problem comes with its path. */
export const readDrawer = (content: string | Uint8Array): FileResult<Drawer> =>
  readContent(content, drawerFormat, drawer)

/**
 * The file of a supply: fields in the order of the schema, two spaces, a line break at the end; equal supplies
 * give equal text. Throws a zod error when the supply is not valid.
 */
export const supplyText = (value: Supply): string => canonicalText(supply.parse(value))

/** The file of a drawer, in the same form as `supplyText`. */
export const drawerText = (value: Drawer): string => canonicalText(drawer.parse(value))

const canonicalText = (value: unknown) => `${JSON.stringify(value, null, 2)}\n`

function readContent<T>(content: string | Uint8Array, format: Format, schema: z.ZodType<T>): FileResult<T> {
  if (content.length > largestFile_B) return refuse(`the file is over ${largestFile_B / 1024 / 1024} MiB`)
  const decoded = typeof content === 'string' ? { ok: true as const, text: content } : decodeUtf8(content)
  if (!decoded.ok) return refuse(decoded.message)
  const text = decoded.text.startsWith('\ufeff') ? decoded.text.slice(1) : decoded.text
  if (text.trim() === '') return refuse('the file is empty')
  const json = readJson(text)
  if (!json.ok) return refuse(`line ${json.line}, column ${json.column}: ${json.message}`)
  return checkValue(json.value, format, schema)
}

function checkValue<T>(input: JsonValue, format: Format, schema: z.ZodType<T>): FileResult<T> {
  const migrated = migrate(input, format)
  if (!migrated.ok) {
    const { path, message, value } = migrated
    return { ok: false, problems: [{ path, message, value }] }
  }
  const checked = schema.safeParse(migrated.value)
  if (checked.success) return { ok: true, value: checked.data, migratedFrom: migrated.migratedFrom }
  const problems = problemsOf(checked.error.issues, migrated.value)
  if (problems.length <= mostProblems) return { ok: false, problems }
  const left = problems.length - mostProblems + 1
  return {
    ok: false,
    problems: [
      ...problems.slice(0, mostProblems - 1),
      { path: '', message: `and ${left} more problems`, value: null },
    ],
  }
}

const refuse = (
  message: string,
): { ok: false; problems: { path: string; message: string; value: null }[] } => ({
  ok: false,
  problems: [{ path: '', message, value: null }],
})
