import { problemSentence } from '../../engine/file/problem.ts'
import type { Drawer } from '../../engine/parts/part.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import type { ShelfEntry, UnreadableFile } from '../../server/api-types.ts'
import type { Storage, StorageFailure } from '../storage/storage.ts'
import { strings } from '../strings/common.ts'
import { beginDoc, createSaver, type Doc, type Saver, withHistory } from './documents.ts'
import { type Change, redo, type Step, settle, take, undo } from './edits.ts'
import { say } from './status.ts'
import { createStore } from './store.ts'

/** Everything of the person's that the page holds. Supplies are read when they are first looked at. */
export interface Desk {
  readonly place: string
  readonly shelf: readonly ShelfEntry[] | null
  readonly unreadable: readonly UnreadableFile[]
  readonly supplies: Readonly<Record<string, Doc<Supply>>>
  /** Why a supply could not be read, by id. */
  readonly unopened: Readonly<Record<string, string>>
  readonly drawer: Doc<Drawer> | null
  /** What is wrong with the drawer that is kept, where it cannot be used; empty where it can. */
  readonly unusableDrawer: readonly string[]
}

export const desk = createStore<Desk>({
  place: '',
  shelf: null,
  unreadable: [],
  supplies: {},
  unopened: {},
  drawer: null,
  unusableDrawer: [],
})

let storage: Storage
const savers = new Map<string, Saver>()
const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('gapwright')
type Message = {
  readonly of: 'supply' | 'drawer' | 'shelf'
  readonly id: string
  readonly tag: string | null
}
const tell = (message: Message) => channel?.postMessage(message)

const setSupply = (id: string, change: (doc: Doc<Supply>) => Doc<Supply>) =>
  desk.set((d) => {
    const doc = d.supplies[id]
    if (doc === undefined) return d
    const next = change(doc)
    return next === doc ? d : { ...d, supplies: { ...d.supplies, [id]: next } }
  })

const setDrawer = (change: (doc: Doc<Drawer>) => Doc<Drawer>) =>
  desk.set((d) => {
    if (d.drawer === null) return d
    const next = change(d.drawer)
    return next === d.drawer ? d : { ...d, drawer: next }
  })

const supplySaver = (id: string): Saver => {
  const known = savers.get(id)
  if (known) return known
  const saver = createSaver<Supply>(
    () => desk.get().supplies[id],
    (change) => setSupply(id, change),
    async (value, replaces) => {
      const outcome = await storage.writeSupply(value, replaces)
      if (outcome.ok) {
        tell({ of: 'supply', id, tag: outcome.value })
        renameOnShelf(id, value.name, outcome.value)
      }
      return outcome
    },
  )
  savers.set(id, saver)
  return saver
}

const renameOnShelf = (id: string, name: string, tag: string) =>
  desk.set((d) => {
    if (d.shelf === null) return d
    const entry = { id, name, tag, savedAt: new Date().toISOString() }
    const others = d.shelf.filter((e) => e.id !== id)
    return { ...d, shelf: [...others, entry].sort((a, b) => a.name.localeCompare(b.name)) }
  })

const drawerSaver = createSaver<Drawer>(
  () => desk.get().drawer ?? undefined,
  setDrawer,
  async (value, replaces) => {
    const outcome = await storage.writeDrawer(value, replaces)
    if (outcome.ok) tell({ of: 'drawer', id: '', tag: outcome.value })
    return outcome
  },
)

/** Reads the shelf and the drawer, and follows what other tabs save. */
export const openDesk = async (from: Storage): Promise<void> => {
  storage = from
  channel?.addEventListener('message', (event: MessageEvent<Message>) => void heard(event.data))
  await Promise.all([
    readShelf(),
    readDrawer(),
    storage.place().then((place) => desk.set((d) => ({ ...d, place }))),
  ])
}

const readShelf = async (): Promise<void> => {
  const shelf = await storage.shelf()
  if (!shelf.ok) {
    say(shelf.message, 'wrong')
    desk.set((d) => ({ ...d, shelf: d.shelf ?? [] }))
    return
  }
  desk.set((d) => ({ ...d, shelf: shelf.value.supplies, unreadable: shelf.value.unreadable }))
}

/**
 * While no drawer is kept, the starter drawer is shown; it is kept once it is edited. So it is while the one that is
 * kept cannot be used, and nothing is written over that one.
 */
const readDrawer = async (): Promise<void> => {
  const kept = await storage.readDrawer()
  if (kept.ok) {
    desk.set((d) => ({ ...d, drawer: beginDoc(kept.value.value, kept.value.tag), unusableDrawer: [] }))
    return
  }
  const unusableDrawer = kept.why === 'missing' ? [] : unusable(kept)
  const { starterDrawer } = await import('../../engine/parts/starter/index.ts')
  const drawer: Doc<Drawer> = { ...beginDoc(starterDrawer, null), save: { is: 'saved' } }
  desk.set((d) => ({ ...d, drawer, unusableDrawer }))
}

const unusable = ({ message, problems }: StorageFailure): string[] =>
  problems.length === 0 ? [message] : problems.map(problemSentence)

/** What another tab saved: taken over here when nothing here is unsaved, else told. */
const heard = async (message: Message): Promise<void> => {
  if (message.of === 'shelf') {
    await readShelf()
    return
  }
  const { supplies, drawer } = desk.get()
  const doc = message.of === 'supply' ? supplies[message.id] : drawer
  if (!doc || doc.tag === message.tag) return
  if (message.of === 'supply') await readShelf()
  if (doc.save.is !== 'saved') {
    say(strings.save.otherTab, 'wrong')
    return
  }
  if (message.of === 'supply') await openSupply(message.id, true)
  else await readDrawer()
  say(strings.save.takenOver)
}

/** Reads a supply unless it is here already; `again` reads it in any case and drops its history. */
export const openSupply = async (id: string, again = false): Promise<void> => {
  if (!again && desk.get().supplies[id]) return
  const kept = await storage.readSupply(id)
  desk.set((d) =>
    kept.ok
      ? { ...d, supplies: { ...d.supplies, [id]: beginDoc(kept.value.value, kept.value.tag) } }
      : { ...d, unopened: { ...d.unopened, [id]: kept.message } },
  )
}

/** Carries out one edit of a supply and saves it soon. */
export const editSupply = (id: string, step: Step): void => {
  setSupply(id, (doc) => withHistory(doc, take(doc.history, step)))
  supplySaver(id).soon()
}

export const settleSupply = (id: string): void =>
  setSupply(id, (doc) => withHistory(doc, settle(doc.history)))

export const undoSupply = (id: string): void => {
  const label = desk.get().supplies[id]?.history.past.at(-1)?.label
  if (label === undefined) return
  setSupply(id, (doc) => withHistory(doc, undo(doc.history)))
  supplySaver(id).soon()
  say(strings.edit.undone(label))
}

export const redoSupply = (id: string): void => {
  const label = desk.get().supplies[id]?.history.future[0]?.label
  if (label === undefined) return
  setSupply(id, (doc) => withHistory(doc, redo(doc.history)))
  supplySaver(id).soon()
  say(strings.edit.redone(label))
}

/** Puts a new supply on the shelf under an id that nothing else has, and resolves with that id. */
export const addSupply = async (supply: Supply): Promise<string> => {
  const taken = new Set(desk.get().shelf?.map((e) => e.id))
  const id = freeId(supply.name, taken)
  const named = { ...supply, id }
  desk.set((d) => ({ ...d, supplies: { ...d.supplies, [id]: beginDoc(named, null) } }))
  await supplySaver(id).now()
  tell({ of: 'shelf', id, tag: null })
  return id
}

/** Id made of a name: lower-case letters, digits and hyphens, with a number where it is taken. */
const freeId = (name: string, taken: ReadonlySet<string>): string => {
  const stem =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 48) || 'supply'
  if (!taken.has(stem)) return stem
  for (let n = 2; ; n += 1) if (!taken.has(`${stem}-${n}`)) return `${stem}-${n}`
}

export const duplicateSupply = async (id: string): Promise<string | null> => {
  await openSupply(id)
  const doc = desk.get().supplies[id]
  if (doc === undefined) return null
  const { value } = doc.history
  return addSupply({ ...value, name: strings.shelf.copyOf(value.name).slice(0, 120) })
}

/** Takes a supply off the shelf; the status line offers to put it back as it was. */
export const removeSupply = async (id: string): Promise<void> => {
  await openSupply(id)
  const doc = desk.get().supplies[id]
  if (doc?.tag == null) return
  await supplySaver(id).now()
  const latest = desk.get().supplies[id] ?? doc
  const removed = await storage.removeSupply(id, latest.tag ?? doc.tag)
  if (!removed.ok) {
    say(removed.message, 'wrong')
    return
  }
  const value = latest.history.value
  forget(id)
  tell({ of: 'shelf', id, tag: null })
  say(strings.shelf.removed(value.name), 'plain', {
    label: strings.edit.undo,
    run: () => void addSupply(value),
  })
}

const forget = (id: string) => {
  savers.delete(id)
  desk.set((d) => {
    const { [id]: _, ...supplies } = d.supplies
    return { ...d, supplies, shelf: d.shelf?.filter((e) => e.id !== id) ?? null }
  })
}

/** After a conflict: keeps this tab's content as a supply of its own and takes over what is kept. */
export const keepBoth = async (id: string): Promise<string | null> => {
  const doc = desk.get().supplies[id]
  if (doc === undefined) return null
  const { value } = doc.history
  await readShelf()
  const copy = await addSupply({ ...value, name: strings.save.mineOf(value.name).slice(0, 120) })
  await openSupply(id, true)
  return copy
}

/** After a conflict: drops this tab's content. */
export const takeTheirs = (id: string): Promise<void> => openSupply(id, true)

/** After a failure to save. */
export const saveAgain = (id: string): void => {
  setSupply(id, (doc) => ({ ...doc, save: { is: 'waiting' } }))
  void supplySaver(id).now()
}

export const saveNow = (id: string): Promise<void> => supplySaver(id).now()

export const editDrawer = (label: string, changes: readonly Change[]): void => {
  setDrawer((doc) => withHistory(doc, take(doc.history, { label, key: null, changes })))
  drawerSaver.soon()
}

export const undoDrawer = (): void => {
  setDrawer((doc) => withHistory(doc, undo(doc.history)))
  drawerSaver.soon()
}

export const redoDrawer = (): void => {
  setDrawer((doc) => withHistory(doc, redo(doc.history)))
  drawerSaver.soon()
}

/** Saves whatever is unsaved, at once: when the page is hidden or left. */
export const saveEverything = (): void => {
  for (const saver of savers.values()) void saver.now()
  void drawerSaver.now()
}
