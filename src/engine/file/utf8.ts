/** Bytes of a file to text: UTF-8 with or without byte order mark; every other encoding is named and refused. */

export type TextResult = { ok: true; text: string } | { ok: false; message: string }

const startsWith = (bytes: Uint8Array, mark: readonly number[]) => mark.every((b, i) => bytes[i] === b)

/**
 * Decodes UTF-8 (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF). A byte order mark at the
 * start is dropped.
 */
export function decodeUtf8(bytes: Uint8Array): TextResult {
  if (startsWith(bytes, [0xff, 0xfe]) || startsWith(bytes, [0xfe, 0xff]))
    return { ok: false, message: 'this text is UTF-16; save it as UTF-8 and try again' }
  if (bytes.length >= 2 && (bytes[0] === 0 || bytes[1] === 0))
    return {
      ok: false,
      message: 'this is not UTF-8 text (it has zero bytes); save it as UTF-8 and try again',
    }
  let at = startsWith(bytes, [0xef, 0xbb, 0xbf]) ? 3 : 0
  const chunks: string[] = []
  let units: number[] = []
  while (at < bytes.length) {
    const first = bytes[at]!
    const length = sequenceLength(first)
    const point = length === 1 ? first : codePoint(bytes, at, length)
    if (point < 0)
      return {
        ok: false,
        message: `byte ${at + 1} is not UTF-8 text; save the file as UTF-8 and try again`,
      }
    if (point < 0x10000) units.push(point)
    else units.push(0xd800 + ((point - 0x10000) >> 10), 0xdc00 + ((point - 0x10000) & 0x3ff))
    at += length
    if (units.length > 8000) {
      chunks.push(String.fromCharCode(...units))
      units = []
    }
  }
  chunks.push(String.fromCharCode(...units))
  return { ok: true, text: chunks.join('') }
}

/** Length that a first byte announces; 0 for a byte that cannot start a character. */
function sequenceLength(first: number): number {
  if (first < 0x80) return 1
  if (first >= 0xc2 && first < 0xe0) return 2
  if (first >= 0xe0 && first < 0xf0) return 3
  if (first >= 0xf0 && first < 0xf5) return 4
  return 0
}

const smallest = [0, 0, 0x80, 0x800, 0x10000]

/** The character of 2 to 4 bytes at a place, or -1 where it is malformed. */
function codePoint(bytes: Uint8Array, at: number, length: number): number {
  if (length === 0) return -1
  let point = bytes[at]! & (0x7f >> length)
  for (let i = 1; i < length; i++) {
    const next = bytes[at + i]
    if (next === undefined || (next & 0xc0) !== 0x80) return -1
    point = (point << 6) | (next & 0x3f)
  }
  const surrogate = point >= 0xd800 && point < 0xe000
  return point < smallest[length]! || surrogate || point > 0x10ffff ? -1 : point
}
