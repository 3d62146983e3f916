import { describe, expect, it } from 'vitest'
import { drawer, type Part } from '../part.ts'
import { starterDrawer } from './index.ts'

const parts = starterDrawer.entries.map((entry) => entry.part)
const count = (kind: Part['kind']) => parts.filter((part) => part.kind === kind).length

describe('starter drawer', () => {
  it('obeys the schema of a drawer', () => {
    expect(drawer.parse(starterDrawer)).toEqual(starterDrawer)
  })

  it('holds enough of each kind', () => {
    expect(count('core')).toBeGreaterThanOrEqual(40)
    expect(count('material')).toBe(4)
    expect(count('switcher')).toBeGreaterThanOrEqual(8)
  })
})
