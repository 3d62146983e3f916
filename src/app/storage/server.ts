import type { Drawer } from '../../engine/parts/part.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import type {
  About,
  ApiErrorCode,
  ApiFailure,
  Saved,
  Shelf,
  StoredDrawer,
  StoredSupply,
} from '../../server/api-types.ts'
import { failed, type Kept, type Outcome, type Storage, type StorageFailure, succeeded } from './storage.ts'

const whyOf: Partial<Record<ApiErrorCode, StorageFailure['why']>> = {
  conflict: 'conflict',
  'not-found': 'missing',
  invalid: 'invalid',
}

const ask = async <T>(path: string, init: RequestInit = {}): Promise<Outcome<T>> => {
  let answer: Response
  try {
    answer = await fetch(`/api/${path}`, init)
  } catch {
    return failed('unreachable', 'Gapwright on this computer does not answer; is it still running?')
  }
  let body: unknown
  try {
    body = await answer.json()
  } catch {
    return failed('unreachable', `Gapwright on this computer answered ${answer.status} without any content.`)
  }
  if (answer.ok) return succeeded(body as T)
  const { error } = body as ApiFailure
  return failed(whyOf[error.code] ?? 'refused', error.message, error.problems ?? [])
}

const replacing = (tag: string | null): Record<string, string> =>
  tag === null ? { 'If-None-Match': '*' } : { 'If-Match': `"${tag}"` }

const put = async (path: string, body: unknown, replaces: string | null): Promise<Outcome<string>> => {
  const saved = await ask<Saved>(path, {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json', ...replacing(replaces) },
    body: JSON.stringify(body),
  })
  return saved.ok ? succeeded(saved.value.tag) : saved
}

const supplyPath = (id: string) => `supplies/${encodeURIComponent(id)}`

/** Keeps supplies and drawer in the bench folder, through the server on this computer. */
export const serverStorage = (): Storage => ({
  place: async () => {
    const about = await ask<About>('about')
    return about.ok ? about.value.folder : about.message
  },
  shelf: () => ask<Shelf>('supplies'),
  readSupply: async (id) => {
    const stored = await ask<StoredSupply>(supplyPath(id))
    return stored.ok ? succeeded<Kept<Supply>>({ tag: stored.value.tag, value: stored.value.supply }) : stored
  },
  writeSupply: (supply, replaces) => put(supplyPath(supply.id), supply, replaces),
  removeSupply: async (id, replaces) => {
    const deleted = await ask<unknown>(supplyPath(id), { method: 'DELETE', headers: replacing(replaces) })
    return deleted.ok ? succeeded(null) : deleted
  },
  readDrawer: async () => {
    const stored = await ask<StoredDrawer>('drawer')
    return stored.ok ? succeeded<Kept<Drawer>>({ tag: stored.value.tag, value: stored.value.drawer }) : stored
  },
  writeDrawer: (drawer, replaces) => put('drawer', drawer, replaces),
})
