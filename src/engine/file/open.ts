import type { Supply } from '../supply/supply.ts'
import { readSupply } from './file.ts'
import type { FileResult } from './problem.ts'
import { readRecord } from './record.ts'

const lessThan = 0x3c
const space = new Set([0x20, 0x09, 0x0a, 0x0d])

/** Whether the first sign is `<`, after a byte order mark and space: a page, and no project file. */
function isMarkup(content: Uint8Array): boolean {
  let at = content[0] === 0xef && content[1] === 0xbb && content[2] === 0xbf ? 3 : 0
  while (space.has(content[at] ?? 0)) at++
  return content[at] === lessThan
}

/** Opens what a person calls a supply's file: the project file itself, or a build record that carries it. */
export function openSupply(content: Uint8Array): FileResult<Supply> {
  if (!isMarkup(content)) return readSupply(content)
  const record = readRecord(content)
  return record.ok ? readSupply(record.text) : { ok: false, problems: [...record.problems] }
}
