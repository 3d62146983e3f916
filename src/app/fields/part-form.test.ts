import { describe, expect, it } from 'vitest'
import { starterDrawer } from '../../engine/parts/starter/index.ts'
import { fieldLabel, fieldText, formColumns, readForm } from './part-form.ts'

describe('part form', () => {
  it('gives back every part of the starter drawer from its own fields', () => {
    for (const { part } of starterDrawer.entries) {
      const texts = Object.fromEntries(formColumns(part.kind).map((c) => [c.path, fieldText(part, c)]))
      const read = readForm(part.kind, part.id, texts)
      expect(read.ok ? null : { id: part.id, errors: read.errors }).toBeNull()
      if (read.ok) expect(Object.keys(read.part).sort()).toEqual(Object.keys(part).sort())
    }
  })

  it('says what is wrong beside the field', () => {
    const { part } = starterDrawer.entries.find((e) => e.part.kind === 'fuse')!
    const texts = Object.fromEntries(formColumns('fuse').map((c) => [c.path, fieldText(part, c)]))
    const unit = readForm('fuse', part.id, { ...texts, rated_A: '3 V' })
    expect(unit.ok).toBe(false)
    if (!unit.ok) expect(unit.errors.rated_A).toContain('3 V')
    const size = readForm('fuse', part.id, { ...texts, rated_A: '-2' })
    if (!size.ok) expect(Object.keys(size.errors)).toEqual(['rated_A'])
    expect(size.ok).toBe(false)
  })

  it('reads labels out of field names', () => {
    expect(fieldLabel('junctionToCase_K_per_W')).toBe('Junction to case')
    expect(fieldLabel('dimensions.A_m')).toBe('Dimensions, A')
  })
})
