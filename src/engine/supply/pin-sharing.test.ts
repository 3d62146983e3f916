import { describe, expect, it } from 'vitest'
import { judged } from '../../../test/drawing/supplies.ts'
import { r1 } from '../../../test/reference/r1/r1.ts'
import type { StackItem } from './build.ts'
import type { Design } from './design.ts'
import { pinGroups, pinSharing } from './pin-sharing.ts'

const many = (inHand: number) => r1({ build: { transformer: { secondaryInHand: inHand } } })
const designOf = (supply: ReturnType<typeof many>): Design => judged(supply).evaluation.design
const secondary = (design: Design) =>
  design.transformer.coil.layout.sections.find((s) => s.winding === 'secondary')!

describe('pins of many wires in hand', () => {
  it('are the one of each end where its wires go on one pin', () => {
    const design = designOf(many(2))
    expect(pinGroups(design).size).toBe(0)
    const { rowOne, rowTwo } = design.parts.former
    expect([secondary(design).startPin, secondary(design).finishPin]).toEqual([
      rowOne + rowTwo,
      rowOne + rowTwo - 1,
    ])
  })

  it('are neighbours on the row of the secondary, enough for all wires, none given twice', () => {
    const design = designOf(many(8))
    const share = pinSharing(design).find((s) => s.winding === 'secondary')!
    const groups = [...pinGroups(design).values()]
    const { rowOne } = design.parts.former
    expect(groups).toHaveLength(2)
    for (const group of groups) {
      expect(group.length * share.wiresOnPin).toBeGreaterThanOrEqual(share.inHand)
      expect(group.map((pin, i) => pin + i)).toEqual(group.map(() => group[0]))
      for (const pin of group) expect(pin).toBeGreaterThan(rowOne)
    }
    expect(new Set(groups.flat()).size).toBe(groups.flat().length)
  })

  it('keep clear of what a stack of one’s own has put on the row', () => {
    const first = designOf(many(8))
    const { rowOne, rowTwo } = first.parts.former
    const stack: StackItem[] = first.transformer.stack.map((item) =>
      item.kind === 'winding' && item.winding === 'secondary'
        ? { ...item, finishPin: rowOne + rowTwo - 1 }
        : item,
    )
    const own = many(8)
    const design = designOf({
      ...own,
      build: { ...own.build, transformer: { ...own.build.transformer, stack } },
    })
    const pins = [...pinGroups(design).values()].flat()
    expect(new Set(pins).size).toBe(pins.length)
    expect(pins.every((pin) => pin > rowOne && pin <= rowOne + rowTwo)).toBe(true)
  })
})
