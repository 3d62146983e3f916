import { describe, expect, it } from 'vitest'
import { failed, succeeded } from '../storage/storage.ts'
import { beginDoc, createSaver, type Doc, withHistory } from './documents.ts'
import { take } from './edits.ts'
import { createStore } from './store.ts'

const setting = (doc: Doc<{ n: number }>, n: number) =>
  withHistory(
    doc,
    take(doc.history, {
      label: 'n',
      key: null,
      changes: [{ path: ['n'], from: doc.history.value.n, to: n }],
    }),
  )

const desk = (
  write: (
    value: { n: number },
    replaces: string | null,
  ) => Promise<ReturnType<typeof succeeded<string>> | ReturnType<typeof failed>>,
) => {
  const store = createStore(beginDoc({ n: 0 }, 'tag-0'))
  const saver = createSaver(store.get, store.set, write, 1)
  return { store, saver }
}

describe('saver', () => {
  it('replaces exactly what it wrote before, also when edits come while it writes', async () => {
    const seen: [number, string | null][] = []
    const { store, saver } = desk(async (value, replaces) => {
      seen.push([value.n, replaces])
      if (value.n === 1) store.set((d) => setting(d, 2))
      return succeeded(`tag-${value.n}`)
    })
    store.set((d) => setting(d, 1))
    await saver.now()
    expect(seen).toEqual([
      [1, 'tag-0'],
      [2, 'tag-1'],
    ])
    expect(store.get()).toMatchObject({ tag: 'tag-2', save: { is: 'saved' } })
  })

  it('writes nothing more after a conflict, and keeps the edits', async () => {
    let writes = 0
    const { store, saver } = desk(async () => {
      writes += 1
      return failed('conflict', 'changed')
    })
    store.set((d) => setting(d, 1))
    await saver.now()
    store.set((d) => setting(d, 2))
    await saver.now()
    expect(writes).toBe(1)
    expect(store.get().save).toEqual({ is: 'conflict' })
    expect(store.get().history.value.n).toBe(2)
  })

  it('tries again on the next edit after a failure, with the same tag', async () => {
    let reachable = false
    const tags: (string | null)[] = []
    const { store, saver } = desk(async (_, replaces) => {
      tags.push(replaces)
      return reachable ? succeeded('tag-9') : failed('unreachable', 'no answer')
    })
    store.set((d) => setting(d, 1))
    await saver.now()
    expect(store.get().save).toEqual({ is: 'failed', message: 'no answer' })
    reachable = true
    store.set((d) => setting(d, 2))
    await saver.now()
    expect(tags).toEqual(['tag-0', 'tag-0'])
    expect(store.get().save).toEqual({ is: 'saved' })
  })
})
