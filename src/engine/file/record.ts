import { largestFile_B } from './file.ts'
import type { FileProblem } from './problem.ts'
import { decodeUtf8 } from './utf8.ts'

/** Id of the element of a build record that holds the project file as plain text. */
export const recordFileId = 'gapwright-file'

/** Largest build record that is read, in bytes; its drawings weigh more than the file inside. */
const largestRecord_B = 4 * largestFile_B

/** The text of the project file inside a build record, or why there is none. */
export type RecordResult =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly FileProblem[] }

const opening = new RegExp(`<pre id=(?:"${recordFileId}"|'${recordFileId}'|${recordFileId})>`, 'g')
const characters: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
  '&nbsp;': '\u00a0',
  '&amp;': '&',
}

/**
 * Takes the project file out of a build record. The record is searched as text and never made into a document, so
 * nothing in it can run; what is found is no more than text until `readSupply` has passed it.
 */
export function readRecord(content: string | Uint8Array): RecordResult {
  if (content.length > largestRecord_B)
    return refuse(`the build record is over ${largestRecord_B / 1024 / 1024} MiB`)
  const decoded = typeof content === 'string' ? { ok: true as const, text: content } : decodeUtf8(content)
  if (!decoded.ok) return refuse(decoded.message)
  const found = [...decoded.text.matchAll(opening)]
  const [mark] = found
  if (mark === undefined) return refuse('this page holds no Gapwright file: it is not a build record')
  if (found.length > 1) return refuse(`this page holds ${found.length} Gapwright files where one is expected`)
  const start = mark.index + mark[0].length
  const end = decoded.text.indexOf('</pre>', start)
  if (end < 0) return refuse('the build record is cut short inside the Gapwright file')
  const inner = decoded.text.slice(start, end)
  if (inner.includes('<')) return refuse('markup stands inside the Gapwright file of this build record')
  return {
    ok: true,
    text: inner.replace(/&(?:lt|gt|quot|#39|nbsp|amp);/g, (entity) => characters[entity]!),
  }
}

const refuse = (message: string): RecordResult => ({
  ok: false,
  problems: [{ path: '', message, value: null }],
})
