/** A strict reader of JSON text (RFC 8259) which says where it stopped and why. */

export type JsonValue = null | boolean | number | string | JsonValue[] | { [key: string]: JsonValue }

export type JsonResult =
  | { ok: true; value: JsonValue }
  | { ok: false; message: string; line: number; column: number }

/** Deepest nesting that is read; a supply needs 7. */
export const deepest = 32

/** Keys that mean something to JavaScript objects themselves and have no place in a file. */
const refusedKeys = new Set(['__proto__', 'constructor', 'prototype'])

class Stop extends Error {
  readonly position: number
  constructor(message: string, position: number) {
    super(message)
    this.position = position
  }
}

const numberPattern = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y
const escapes: Record<string, string> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
}

/**
 * Reads JSON as RFC 8259 writes it, and refuses besides: a key used twice in one object, keys that reach into
 * JavaScript objects (`__proto__` and its kin), nesting over `deepest`, numbers too large for a double.
 * Line and column count from 1.
 */
export function readJson(text: string): JsonResult {
  let at = 0

  const stop = (message: string, position = at): never => {
    throw new Stop(message, position)
  }
  const found = (): string => {
    const character = text[at]
    return character === undefined ? 'the text ends' : `${JSON.stringify(character)} stands`
  }
  const skipSpace = () => {
    for (;;) {
      const c = text.charCodeAt(at)
      if (c !== 0x20 && c !== 0x0a && c !== 0x0d && c !== 0x09) return
      at++
    }
  }

  const readString = (): string => {
    at++
    let result = ''
    for (;;) {
      const start = at
      while (isPlain(text.charCodeAt(at))) at++
      result += text.slice(start, at)
      const c = text[at]
      if (c === '"') {
        at++
        return result
      }
      if (c === undefined) return stop('the text ends inside a string: the file is cut short')
      if (c !== '\\') return stop('a line break or control character stands inside a string')
      result += readEscape()
    }
  }

  const readEscape = (): string => {
    const letter = text[at + 1]
    if (letter === 'u') {
      const hex = text.slice(at + 2, at + 6)
      if (!/^[0-9a-fA-F]{4}$/.test(hex)) return stop('\\u wants four hexadecimal digits')
      at += 6
      return String.fromCharCode(Number.parseInt(hex, 16))
    }
    const character = letter === undefined ? undefined : escapes[letter]
    if (character === undefined) return stop(`\\${letter ?? ''} is no escape of JSON`)
    at += 2
    return character
  }

  const readNumber = (): number => {
    numberPattern.lastIndex = at
    const digits = numberPattern.exec(text)?.[0]
    if (digits === undefined) return stop(`a value was expected where ${found()}`)
    const value = Number(digits)
    if (!Number.isFinite(value)) return stop(`the number ${digits.slice(0, 30)} is too large`)
    at += digits.length
    return value
  }

  const readWord = <T>(word: string, value: T): T => {
    if (!text.startsWith(word, at)) stop(`a value was expected where ${found()}`)
    at += word.length
    return value
  }

  const readList = (depth: number): JsonValue[] => {
    const list: JsonValue[] = []
    at++
    skipSpace()
    if (text[at] === ']') {
      at++
      return list
    }
    for (;;) {
      list.push(readValue(depth))
      skipSpace()
      const c = text[at]
      if (c !== ',' && c !== ']') stop(`, or ] was expected where ${found()}`)
      at++
      if (c === ']') return list
    }
  }

  const readKey = (seen: ReadonlySet<string>): string => {
    skipSpace()
    if (text[at] !== '"') stop(`a field name in double quotes was expected where ${found()}`)
    const start = at
    const key = readString()
    if (refusedKeys.has(key)) stop(`the field name ${key} is not allowed in a file`, start)
    if (seen.has(key)) stop(`the field ${JSON.stringify(key.slice(0, 60))} is there twice`, start)
    skipSpace()
    if (text[at] !== ':') stop(`: was expected where ${found()}`)
    at++
    return key
  }

  const readObject = (depth: number): { [key: string]: JsonValue } => {
    const object: { [key: string]: JsonValue } = {}
    const seen = new Set<string>()
    at++
    skipSpace()
    if (text[at] === '}') {
      at++
      return object
    }
    for (;;) {
      const key = readKey(seen)
      seen.add(key)
      object[key] = readValue(depth)
      skipSpace()
      const c = text[at]
      if (c !== ',' && c !== '}') stop(`, or } was expected where ${found()}`)
      at++
      if (c === '}') return object
    }
  }

  const readValue = (depth: number): JsonValue => {
    skipSpace()
    const c = text[at]
    if ((c === '{' || c === '[') && depth >= deepest) stop(`nested deeper than ${deepest} levels`)
    if (c === '{') return readObject(depth + 1)
    if (c === '[') return readList(depth + 1)
    if (c === '"') return readString()
    if (c === 't') return readWord('true', true)
    if (c === 'f') return readWord('false', false)
    if (c === 'n') return readWord('null', null)
    return readNumber()
  }

  try {
    const value = readValue(0)
    skipSpace()
    if (at < text.length) stop(`nothing was expected after the end, and ${found()} there`)
    return { ok: true, value }
  } catch (error) {
    if (!(error instanceof Stop)) throw error
    return { ok: false, message: error.message, ...lineAndColumn(text, error.position) }
  }
}

/** Whether a character stands for itself inside a string; false past the end, where the code is NaN. */
const isPlain = (code: number) => code >= 0x20 && code !== 0x22 && code !== 0x5c

function lineAndColumn(text: string, position: number): { line: number; column: number } {
  const before = text.slice(0, position)
  const lastBreak = before.lastIndexOf('\n')
  return { line: before.split('\n').length, column: position - lastBreak }
}
