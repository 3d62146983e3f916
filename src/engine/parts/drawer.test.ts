import { describe, expect, it } from 'vitest'
import {
  addPart,
  compareDrawers,
  drawer,
  findEntry,
  freeId,
  mergeDrawers,
  partsOfKind,
  removePart,
  replacePart,
  starterDrawer,
} from './index.ts'

const core = partsOfKind(starterDrawer, 'core')[0]!
const mine = { ...core, id: 'core-mine' }

describe('drawer', () => {
  it('finds by id and by kind', () => {
    expect(findEntry(starterDrawer, core.id)?.part).toBe(core)
    expect(findEntry(starterDrawer, 'nothing')).toBeUndefined()
    expect(partsOfKind(starterDrawer, 'core').every((part) => part.kind === 'core')).toBe(true)
  })

  it('adds, replaces and removes without touching the drawer it is given', () => {
    const before = JSON.stringify(starterDrawer)
    const added = addPart(starterDrawer, mine, 3)
    expect(findEntry(added, 'core-mine')).toEqual({ part: mine, quantity: 3 })
    const renamed = replacePart(added, 'core-mine', { ...mine, id: 'core-ours' })
    expect(findEntry(renamed, 'core-ours')?.quantity).toBe(3)
    expect(findEntry(renamed, 'core-mine')).toBeUndefined()
    expect(removePart(added, 'core-mine')).toEqual(starterDrawer)
    expect(JSON.stringify(starterDrawer)).toBe(before)
    expect(drawer.safeParse(renamed).success).toBe(true)
  })

  it('refuses a taken id and one that is not there', () => {
    expect(() => addPart(starterDrawer, core)).toThrow(core.id)
    expect(() => removePart(starterDrawer, 'nothing')).toThrow('no part with id nothing')
    const other = partsOfKind(starterDrawer, 'core')[1]!
    expect(() => replacePart(starterDrawer, core.id, other)).toThrow(other.id)
  })

  it('finds a free id within the length an id may have', () => {
    expect(freeId(starterDrawer, 'new')).toBe('new')
    expect(freeId(starterDrawer, core.id)).toBe(`${core.id}-2`)
    const long = addPart(starterDrawer, { ...core, id: 'x'.repeat(80) })
    expect(freeId(long, 'x'.repeat(80))).toBe(`${'x'.repeat(78)}-2`)
  })

  it('merges: equal parts add up, different ones under one id are kept apart', () => {
    const second = { ...starterDrawer, entries: [{ part: core, quantity: 2 }] }
    const { drawer: sum, renamed } = mergeDrawers(starterDrawer, second)
    expect(findEntry(sum, core.id)?.quantity).toBe(6)
    expect(renamed).toEqual([])
    const changed = { ...core, name: 'another core' }
    const clash = mergeDrawers(starterDrawer, { ...second, entries: [{ part: changed, quantity: 1 }] })
    expect(clash.renamed).toEqual([{ from: core.id, to: `${core.id}-2` }])
    expect(findEntry(clash.drawer, `${core.id}-2`)?.part.name).toBe('another core')
    expect(drawer.safeParse(clash.drawer).success).toBe(true)
  })

  it('says what differs', () => {
    const first = addPart(starterDrawer, mine, 3)
    const second = replacePart(starterDrawer, core.id, { ...core, name: 'renamed' }, 9)
    expect(compareDrawers(first, second)).toEqual({
      onlyFirst: ['core-mine'],
      onlySecond: [],
      changed: [{ id: core.id, fields: ['name', 'quantity'] }],
    })
    const same = compareDrawers(starterDrawer, structuredClone(starterDrawer))
    expect(same).toEqual({ onlyFirst: [], onlySecond: [], changed: [] })
  })
})
