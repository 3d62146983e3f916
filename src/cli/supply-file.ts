import { readFile, writeFile } from 'node:fs/promises'
import { readDrawer } from '../engine/file/file.ts'
import { openSupply } from '../engine/file/open.ts'
import { type FileResult, problemSentence } from '../engine/file/problem.ts'
import { type Assessment, assessWhole } from '../engine/limits/index.ts'
import type { Drawer } from '../engine/parts/part.ts'
import type { Supply } from '../engine/supply/supply.ts'
import { InputError } from './command.ts'

/** The word that a command cannot do without. */
export function requiredWord(words: readonly string[], what: string): string {
  const word = words[0]
  if (word === undefined) throw new InputError(`${what} is missing`)
  return word
}

async function readBytes(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    throw new InputError(code === 'ENOENT' ? `there is no file ${path}` : `${path} cannot be read (${code})`)
  }
}

/** Writes a text for the person; what the disk says against it becomes an InputError. */
export async function writeText(path: string, text: string, mayReplace: boolean): Promise<void> {
  try {
    await writeFile(path, text, { flag: mayReplace ? 'w' : 'wx' })
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    throw new InputError(
      code === 'EEXIST'
        ? `${path} is there already; nothing was written`
        : `${path} cannot be written (${code})`,
    )
  }
}

function contentOf<T>(path: string, read: FileResult<T>): T {
  if (read.ok) return read.value
  const sentences = read.problems.map((problem) => `  ${problemSentence(problem)}`)
  throw new InputError(`${path} cannot be used:\n${sentences.join('\n')}`)
}

/** Reads a supply from its file or a build record, or throws an InputError that lists what is wrong with it. */
export const readSupplyFile = async (path: string): Promise<Supply> =>
  contentOf(path, openSupply(await readBytes(path)))

/** Reads a drawer from a file, or throws an InputError that lists what is wrong with it. */
export const readDrawerFile = async (path: string): Promise<Drawer> =>
  contentOf(path, readDrawer(await readBytes(path)))

/** The verdict on a supply, its loop included, or an InputError that says why there is none. */
export function assessed(supply: Supply): Assessment {
  const result = assessWhole(supply)
  if (result.ok) return result.value
  throw new InputError(result.problems.map((problem) => `${problem.path}: ${problem.message}`).join('\n'))
}
