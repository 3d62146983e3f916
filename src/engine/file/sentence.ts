import type { z } from 'zod'
import { ofPart } from './part-problem.ts'
import { type FileProblem, readablePath, readableValue, shortened } from './problem.ts'

type Issue = z.core.$ZodIssue
type Keys = readonly PropertyKey[]

const wanted: Record<string, string> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  null: 'null',
}

/** The value at a path of the input, undefined where the path ends early. */
function valueAt(input: unknown, keys: Keys): unknown {
  let value = input
  for (const key of keys) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
    value = (value as Record<PropertyKey, unknown>)[key]
  }
  return value
}

/** Turns what the schema found into paths and sentences; `input` is what was checked. */
export function problemsOf(issues: readonly Issue[], input: unknown): FileProblem[] {
  return issues.flatMap((issue) => problemsOfIssue(issue, input))
}

function problemsOfIssue(issue: Issue, input: unknown): FileProblem[] {
  const value = valueAt(input, issue.path)
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => ({
      path: readablePath([...issue.path, key]),
      message: 'is not a field of this version of the file',
      value: readableValue(valueAt(input, [...issue.path, key])),
    }))
  const path = readablePath(issue.path)
  const message = `${shortened(messageOf(issue, value), 400)}${issue.code === 'custom' ? '' : ofPart(input, issue.path)}`
  return [{ path, message, value: readableValue(value) }]
}

function messageOf(issue: Issue, value: unknown): string {
  if (value === undefined && issue.code !== 'custom') return 'is missing'
  const found = readableValue(value)
  switch (issue.code) {
    case 'too_big':
      return `${counted(issue, value)} is over ${issue.maximum}`
    case 'too_small':
      return issue.origin === 'number' && issue.inclusive === false
        ? `${found} must be more than ${issue.minimum}`
        : `${counted(issue, value)} is under ${issue.minimum}`
    case 'invalid_type':
      return `${found} stands where ${wanted[issue.expected] ?? issue.expected} is wanted`
    case 'invalid_value':
      return `${found} is not ${choices(issue.values)}`
    case 'invalid_union':
      return unionMessage(issue, found)
    case 'invalid_format':
      return `${found}: ${issue.message}`
    default:
      return issue.message
  }
}

/** What a size limit is about: the number itself, or how many characters or entries there are. */
function counted(issue: { origin: string }, value: unknown): string {
  if (typeof value === 'string') return `a text of ${value.length} characters`
  if (Array.isArray(value)) return `a list of ${value.length} entries`
  if (issue.origin === 'array') return 'the list'
  return `${readableValue(value)}`
}

function choices(values: readonly unknown[]): string {
  const shown = values.map((v) => (typeof v === 'string' ? v : String(v)))
  return shown.length === 1 ? `${shown[0]}` : `one of ${shown.join(', ')}`
}

function unionMessage(issue: Extract<Issue, { code: 'invalid_union' }>, found: string | null): string {
  const options = 'options' in issue && Array.isArray(issue.options) ? issue.options : []
  const literals = issue.errors.flat().flatMap((e) => (e.code === 'invalid_value' ? e.values : []))
  const known = options.length > 0 ? options : literals
  return known.length > 0
    ? `${found} is not ${choices(known)}`
    : `${found} fits none of the forms allowed here`
}
