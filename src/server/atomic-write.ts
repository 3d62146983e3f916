import { constants } from 'node:fs'
import { copyFile, link, open, rename, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'

let counter = 0

/** A name beside the target that no reader takes for a file of the folder. */
const besideName = (path: string) => join(dirname(path), `.saving-${process.pid}-${counter++}`)

/** Makes a rename or a new name durable; folders cannot be opened on some systems, and there it is skipped. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return
  const handle = await open(folder, constants.O_RDONLY)
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

async function writeBeside(path: string, text: string): Promise<string> {
  const temporary = besideName(path)
  const handle = await open(temporary, 'wx', 0o644)
  try {
    await handle.writeFile(text, 'utf8')
    await handle.sync()
  } finally {
    await handle.close()
  }
  return temporary
}

/**
 * Replaces a file in one step: whoever reads it, or finds it after a crash, has the old content or the new, whole.
 * Temporary file in the same folder, fsync, rename, fsync of the folder.
 */
export async function replaceFile(path: string, text: string): Promise<void> {
  const temporary = await writeBeside(path, text)
  try {
    await rename(temporary, path)
  } catch (error) {
    await rm(temporary, { force: true })
    throw error
  }
  await syncFolder(dirname(path))
}

/** Makes a file that must not be there yet; fails with code EEXIST where it is. */
export async function createFile(path: string, text: string): Promise<void> {
  const temporary = await writeBeside(path, text)
  try {
    await linkOrCopy(temporary, path)
  } finally {
    await rm(temporary, { force: true })
  }
  await syncFolder(dirname(path))
}

/** Puts the present content of a file under a second name too, replacing what had that name. */
export async function keepCopy(path: string, keepPath: string): Promise<void> {
  const temporary = besideName(keepPath)
  try {
    await linkOrCopy(path, temporary)
    await rename(temporary, keepPath)
  } finally {
    await rm(temporary, { force: true })
  }
  await syncFolder(dirname(keepPath))
}

/** Moves a file to another folder of the same disk. */
export async function moveFile(path: string, toPath: string): Promise<void> {
  await rename(path, toPath)
  await syncFolder(dirname(toPath))
  await syncFolder(dirname(path))
}

/** A second name for the same content; a copy on file systems without hard links. Neither overwrites. */
async function linkOrCopy(from: string, to: string): Promise<void> {
  try {
    await link(from, to)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'ENOSYS' && code !== 'EOPNOTSUPP') throw error
    await copyFile(from, to, constants.COPYFILE_EXCL)
  }
}
