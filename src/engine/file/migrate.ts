import type { JsonValue } from './json.ts'
import { readableValue } from './problem.ts'

type JsonObject = { [key: string]: JsonValue }

/** Reads one version forward to the next; the entry at key n takes version n and gives version n + 1. */
export type Migrations = Readonly<Record<number, (old: JsonObject) => JsonObject>>

/** One kind of file: the name in its `format` field, its newest version, and the steps from all older ones. */
export type Format = { name: string; version: number; migrations: Migrations }

export type Migrated =
  | { ok: true; value: JsonObject; migratedFrom: number | null }
  | { ok: false; path: string; message: string; value: string | null }

/** Checks `format` and `version`, and takes an older file forward one version at a time. */
export function migrate(input: JsonValue, format: Format): Migrated {
  const refuse = (path: string, message: string, value: unknown): Migrated => ({
    ok: false,
    path,
    message,
    value: readableValue(value),
  })
  if (typeof input !== 'object' || input === null || Array.isArray(input))
    return refuse(
      '',
      `this is not a Gapwright file: ${readableValue(input)} stands where an object is wanted`,
      input,
    )
  if (input.format === undefined)
    return refuse('format', `is missing; this is no ${format.name} file`, undefined)
  if (input.format !== format.name)
    return refuse('format', `${readableValue(input.format)} is not ${format.name}`, input.format)
  const version = input.version
  if (version === undefined) return refuse('version', 'is missing', undefined)
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuse('version', `${readableValue(version)} is not a version number`, version)
  if (version > format.version)
    return refuse(
      'version',
      `${version} was written by a newer Gapwright; this one reads up to ${format.version}`,
      version,
    )
  let value = input
  for (let from = version; from < format.version; from++) {
    const step = format.migrations[from]
    if (step === undefined) return refuse('version', `${version} is too old to be read`, version)
    value = { ...step(value), version: from + 1 }
  }
  return { ok: true, value, migratedFrom: version < format.version ? version : null }
}
