import { createHash } from 'node:crypto'
import { constants } from 'node:fs'
import { lstat, mkdir, open, readdir, realpath, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { drawerText, largestFile_B, readDrawer, readSupply, supplyText } from '../engine/file/file.ts'
import type { FileProblem, FileResult } from '../engine/file/problem.ts'
import type { Drawer } from '../engine/parts/part.ts'
import type { Supply } from '../engine/supply/supply.ts'
import type { Shelf } from './api-types.ts'
import { createFile, keepCopy, moveFile, replaceFile } from './atomic-write.ts'

/** What a save must find in the place that it writes to: one exact content, or nothing. */
export type Expected = { tag: string } | 'nothing'

export type SaveResult = { ok: true; tag: string } | { ok: false; presentTag: string | null }
export type DeleteResult = { ok: true; kept: string } | { ok: false; presentTag: string | null }

/** A file that was read: its tag, and what is in it. Null where there is no such file. */
export type Stored<T> = { tag: string; savedAt: string; content: FileResult<T> } | null

export type BenchFolder = {
  path: string
  /** True when this is the first time that the folder is opened, and it has no supply. */
  isNew: boolean
  list: () => Promise<Shelf>
  readSupply: (id: string) => Promise<Stored<Supply>>
  readPrevious: (id: string) => Promise<Stored<Supply>>
  saveSupply: (supply: Supply, expected: Expected) => Promise<SaveResult>
  deleteSupply: (id: string, tag: string) => Promise<DeleteResult>
  hasDrawer: () => Promise<boolean>
  readDrawer: () => Promise<Stored<Drawer>>
  saveDrawer: (drawer: Drawer, expected: Expected) => Promise<SaveResult>
}

/** The disk said no, in words for a person. */
export class DiskError extends Error {}

const supplyEnding = '.supply.json'
const drawerName = 'drawer.json'
const previousFolder = '.previous'
const deletedFolder = '.deleted'
const idPattern = /^[a-z0-9][a-z0-9-]{0,63}$/

const tooLarge = `over ${largestFile_B / 1024 / 1024} MiB`

const problem = (message: string): FileProblem => ({ path: '', message, value: null })

/** Names one exact content: the first 128 bits of its SHA-256. */
const tagOf = (bytes: Uint8Array | string): string =>
  createHash('sha256').update(bytes).digest('hex').slice(0, 32)

/** Opens a bench folder, making it when it is not there. Nothing outside it is ever read or written. */
export async function openBenchFolder(wanted: string): Promise<BenchFolder> {
  await mkdir(wanted, { recursive: true })
  const path = await realpath(wanted)
  let isNew = !(await readdir(path)).some((name) => name.endsWith(supplyEnding))
  for (const kept of [previousFolder, deletedFolder]) {
    if ((await mkdir(join(path, kept), { recursive: true })) === undefined) isNew = false
    if (!(await lstat(join(path, kept))).isDirectory())
      throw new DiskError(`${kept} in ${path} is a link; it must be a folder of its own`)
  }
  await removeLeftovers(path)
  await removeLeftovers(join(path, previousFolder))

  const supplyPath = (id: string) => join(path, checkedId(id) + supplyEnding)
  const inOrder = oneAtATime()

  const readAsSupply = async (file: string, id: string): Promise<Stored<Supply>> => {
    const stored = await readStored(file, readSupply)
    if (stored?.content.ok) stored.content.value = { ...stored.content.value, id }
    return stored
  }

  const save = async (file: string, name: string, text: string, expected: Expected): Promise<SaveResult> => {
    if (Buffer.byteLength(text) > largestFile_B) throw new DiskError(`${name} would be ${tooLarge}`)
    const present = await presentTag(file)
    if (expected === 'nothing' ? present !== null : present !== expected.tag)
      return { ok: false, presentTag: present }
    if (expected === 'nothing') {
      try {
        await createFile(file, text)
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
        return { ok: false, presentTag: await presentTag(file) }
      }
    } else {
      const kept = join(path, previousFolder, name)
      await keepCopy(file, kept)
      const keptTag = await presentTag(kept)
      if (keptTag !== expected.tag) return { ok: false, presentTag: keptTag }
      await replaceFile(file, text)
    }
    return { ok: true, tag: tagOf(text) }
  }

  return {
    path,
    isNew,
    list: async () => {
      const shelf: Shelf = {
        supplies: [],
        unreadable: [],
        drawerTag: await presentTag(join(path, drawerName)),
      }
      for (const file of (await readdir(path)).filter((n) => n.endsWith(supplyEnding)).sort()) {
        const id = file.slice(0, -supplyEnding.length)
        const refuse = (problems: FileProblem[]) => shelf.unreadable.push({ file, problems })
        if (!idPattern.test(id)) {
          refuse([problem('rename the file: 1 to 64 of a-z, 0-9 and hyphen, then .supply.json')])
          continue
        }
        try {
          const stored = await readAsSupply(join(path, file), id)
          if (stored === null) continue
          const { tag, savedAt, content } = stored
          if (content.ok) shelf.supplies.push({ id, name: content.value.name, tag, savedAt })
          else refuse(content.problems)
        } catch (error) {
          if (!(error instanceof DiskError)) throw error
          refuse([problem(error.message)])
        }
      }
      shelf.supplies.sort((a, b) => a.name.localeCompare(b.name, 'en') || (a.id < b.id ? -1 : 1))
      return shelf
    },
    readSupply: (id) => readAsSupply(supplyPath(id), id),
    readPrevious: (id) => readAsSupply(join(path, previousFolder, checkedId(id) + supplyEnding), id),
    saveSupply: (supply, expected) =>
      inOrder(() => save(supplyPath(supply.id), supply.id + supplyEnding, supplyText(supply), expected)),
    deleteSupply: (id, tag) =>
      inOrder(async () => {
        const present = await presentTag(supplyPath(id))
        if (present !== tag) return { ok: false, presentTag: present }
        const kept = await freeName(join(path, deletedFolder), id)
        await moveFile(supplyPath(id), join(path, deletedFolder, kept))
        return { ok: true, kept }
      }),
    hasDrawer: async () => (await readdir(path)).includes(drawerName),
    readDrawer: () => readStored(join(path, drawerName), readDrawer),
    saveDrawer: (drawer, expected) =>
      inOrder(() => save(join(path, drawerName), drawerName, drawerText(drawer), expected)),
  }
}

function checkedId(id: string): string {
  if (!idPattern.test(id)) throw new DiskError(`${JSON.stringify(id.slice(0, 80))} is not the id of a supply`)
  return id
}

/** Runs tasks one after the other, so that a check and the write that follows it belong together. */
function oneAtATime(): <T>(task: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve()
  return (task) => {
    const next = last.then(task)
    last = next.catch(() => undefined)
    return next
  }
}

/** Removes what a save left that was cut off more than a minute ago. */
async function removeLeftovers(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    if (!/^\.saving-\d+-\d+$/.test(name)) continue
    const status = await lstat(join(folder, name)).catch(() => null)
    if (status !== null && Date.now() - status.mtimeMs > 60_000) await rm(join(folder, name), { force: true })
  }
}

/** Reads a plain file, never through a link; null when there is none. */
async function readBytes(file: string): Promise<{ bytes: Uint8Array; savedAt: string } | null> {
  const noFollow = constants.O_NOFOLLOW ?? 0
  let handle: Awaited<ReturnType<typeof open>>
  try {
    handle = await open(file, constants.O_RDONLY | noFollow | (constants.O_NONBLOCK ?? 0))
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'ENOENT') return null
    if (code === 'ELOOP') throw new DiskError('this is a link; only plain files of the folder are opened')
    throw new DiskError(`the file cannot be opened: ${(error as Error).message}`)
  }
  try {
    const status = await handle.stat()
    if (!status.isFile()) throw new DiskError('this is not a plain file')
    if (status.size > largestFile_B) throw new DiskError(`the file is ${tooLarge}`)
    return { bytes: await handle.readFile(), savedAt: status.mtime.toISOString() }
  } finally {
    await handle.close()
  }
}

async function readStored<T>(file: string, read: (bytes: Uint8Array) => FileResult<T>): Promise<Stored<T>> {
  const found = await readBytes(file)
  if (found === null) return null
  return { tag: tagOf(found.bytes), savedAt: found.savedAt, content: read(found.bytes) }
}

async function presentTag(file: string): Promise<string | null> {
  const found = await readBytes(file)
  return found === null ? null : tagOf(found.bytes)
}

/** A name that is not taken yet in the folder of deleted files: `id.supply.json`, then `id.2.supply.json`. */
async function freeName(folder: string, id: string): Promise<string> {
  const taken = new Set(await readdir(folder))
  for (let n = 1; ; n++) {
    const name = n === 1 ? `${id}${supplyEnding}` : `${id}.${n}${supplyEnding}`
    if (!taken.has(name)) return name
  }
}
