import { drawerText, readDrawer, readSupply, supplyText } from '../../engine/file/file.ts'
import type { FileResult } from '../../engine/file/problem.ts'
import type { ShelfEntry, UnreadableFile } from '../../server/api-types.ts'
import { failed, type Kept, type Outcome, type Storage, succeeded } from './storage.ts'

interface Row {
  readonly tag: string
  readonly text: string
  readonly savedAt: string
}

const table = 'files'
const supplyKey = (id: string) => `supply/${id}`
const drawerKey = 'drawer'

const openDatabase = (): Promise<IDBDatabase> =>
  new Promise((resolve, reject) => {
    const request = indexedDB.open('gapwright', 1)
    request.onupgradeneeded = () => request.result.createObjectStore(table)
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error ?? new Error('no storage'))
  })

/** Runs requests inside one transaction; what `work` resolves with is returned once all of it is kept. */
const transact = async <T>(
  mode: IDBTransactionMode,
  work: (files: IDBObjectStore, answer: (outcome: Outcome<T>) => void) => void,
): Promise<Outcome<T>> => {
  try {
    const database = await openDatabase()
    return (await new Promise((resolve) => {
      const transaction = database.transaction(table, mode)
      let outcome: Outcome<T> = failed('refused', 'This browser did not keep the file.')
      work(transaction.objectStore(table), (given) => {
        outcome = given
      })
      transaction.oncomplete = () => resolve(outcome)
      transaction.onabort = () =>
        resolve(
          failed(
            'refused',
            `This browser did not keep the file: ${transaction.error?.message ?? 'it stopped'}.`,
          ),
        )
    }).finally(() => database.close())) as Outcome<T>
  } catch {
    return failed('unreachable', 'This browser lets the page keep no files (a private window, perhaps).')
  }
}

const readRow = async <T>(key: string, read: (text: string) => FileResult<T>): Promise<Outcome<Kept<T>>> => {
  const row = await transact<Row>('readonly', (files, answer) => {
    const request: IDBRequest<Row | undefined> = files.get(key)
    request.onsuccess = () =>
      answer(request.result ? succeeded(request.result) : failed('missing', 'There is nothing by that name.'))
  })
  if (!row.ok) return row
  const file = read(row.value.text)
  return file.ok
    ? succeeded({ tag: row.value.tag, value: file.value })
    : failed('invalid', 'The file in this browser cannot be opened.', file.problems)
}

/** A name for one content. Not `crypto.randomUUID`, which a page from a plain http address does not have. */
const newTag = (): string => crypto.getRandomValues(new Uint32Array(4)).join('-')

/** Compares and writes in one transaction, so that two tabs can not both replace the same content. */
const writeRow = (key: string, text: string | null, replaces: string | null): Promise<Outcome<string>> =>
  transact('readwrite', (files, answer) => {
    const request: IDBRequest<Row | undefined> = files.get(key)
    request.onsuccess = () => {
      const present = request.result?.tag ?? null
      if (present !== replaces) {
        answer(failed('conflict', 'Another tab has changed this file.'))
        return
      }
      const tag = newTag()
      if (text === null) files.delete(key)
      else files.put({ tag, text, savedAt: new Date().toISOString() } satisfies Row, key)
      answer(succeeded(tag))
    }
  })

/** Keeps supplies and drawer inside this browser (IndexedDB): for the page without a server. */
export const browserStorage = (): Storage => ({
  place: async () => 'this browser',
  shelf: async () => {
    const rows = await transact<[string, Row][]>('readonly', (files, answer) => {
      const found: [string, Row][] = []
      const request = files.openCursor()
      request.onsuccess = () => {
        const cursor = request.result
        if (cursor === null) {
          answer(succeeded(found))
          return
        }
        found.push([String(cursor.key), cursor.value as Row])
        cursor.continue()
      }
    })
    if (!rows.ok) return rows
    const supplies: ShelfEntry[] = []
    const unreadable: UnreadableFile[] = []
    for (const [key, row] of rows.value) {
      if (key === drawerKey) continue
      const file = readSupply(row.text)
      if (file.ok)
        supplies.push({ id: file.value.id, name: file.value.name, tag: row.tag, savedAt: row.savedAt })
      else unreadable.push({ file: key, problems: file.problems })
    }
    supplies.sort((a, b) => a.name.localeCompare(b.name))
    const drawerTag = rows.value.find(([key]) => key === drawerKey)?.[1].tag ?? null
    return succeeded({ supplies, unreadable, drawerTag })
  },
  readSupply: (id) => readRow(supplyKey(id), readSupply),
  writeSupply: (supply, replaces) => writeRow(supplyKey(supply.id), supplyText(supply), replaces),
  removeSupply: async (id, replaces) => {
    const removed = await writeRow(supplyKey(id), null, replaces)
    return removed.ok ? succeeded(null) : removed
  },
  readDrawer: () => readRow(drawerKey, readDrawer),
  writeDrawer: (drawer, replaces) => writeRow(drawerKey, drawerText(drawer), replaces),
})
