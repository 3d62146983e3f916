import type { FaultTable } from '../../../engine/bench/index.ts'

const shelf = 'tables'
const most = 12

const open = (): Promise<IDBDatabase> =>
  new Promise((resolve, reject) => {
    const request = indexedDB.open('gapwright-bench', 1)
    request.onupgradeneeded = () => request.result.createObjectStore(shelf)
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error ?? new Error('no storage'))
  })

/** A fault table kept by this browser, or null; a browser that keeps nothing only computes anew. */
export const keptTable = async (key: string): Promise<FaultTable | null> => {
  try {
    const database = await open()
    return await new Promise<FaultTable | null>((resolve) => {
      const request: IDBRequest<FaultTable | undefined> = database
        .transaction(shelf, 'readonly')
        .objectStore(shelf)
        .get(key)
      request.onsuccess = () => resolve(request.result?.key === key ? request.result : null)
      request.onerror = () => resolve(null)
    }).finally(() => database.close())
  } catch {
    return null
  }
}

/** Keeps a table under its key, and lets go of others when there are many. */
export const keepTable = async (table: FaultTable): Promise<void> => {
  try {
    const database = await open()
    await new Promise<void>((resolve) => {
      const transaction = database.transaction(shelf, 'readwrite')
      const tables = transaction.objectStore(shelf)
      const keys = tables.getAllKeys()
      keys.onsuccess = () => {
        for (const old of keys.result.slice(0, Math.max(0, keys.result.length - most + 1))) tables.delete(old)
        tables.put(table, table.key)
      }
      transaction.oncomplete = () => resolve()
      transaction.onabort = () => resolve()
    }).finally(() => database.close())
  } catch {
    // Nothing is lost: the table is computed again next time.
  }
}
