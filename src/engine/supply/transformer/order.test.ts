import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { StackItem } from '../build.ts'
import {
  changeWinding,
  joinWinding,
  moveItem,
  placedItems,
  placesOf,
  setTape,
  splitWinding,
} from './order.ts'

const wind = (
  winding: 'primary' | 'secondary' | 'bias',
  turns: number,
  startPin: number,
  finishPin: number,
): StackItem => ({ kind: 'winding', winding, turns, direction: 'clockwise', startPin, finishPin })
const tape = (layers: number): StackItem => ({ kind: 'tape', layers })
const rule = { tapeBarrier: 3, tapeOuter: 2 }
const split: readonly StackItem[] = [
  wind('primary', 32, 1, 2),
  tape(3),
  wind('secondary', 8, 10, 9),
  tape(3),
  wind('primary', 31, 2, 3),
  tape(1),
  wind('bias', 9, 4, 5),
  tape(2),
]
const names = (stack: readonly StackItem[]) =>
  placedItems(stack).map(({ item }) => (item.kind === 'winding' ? item.winding : item.kind))
const turnsOf = (stack: readonly StackItem[], winding: string) =>
  stack.reduce((sum, i) => sum + (i.kind === 'winding' && i.winding === winding ? i.turns : 0), 0)

describe('moving a winding', () => {
  it('lets the usual tape follow its neighbours', () => {
    const moved = moveItem(split, 3, 1, rule)
    expect(names(moved)).toEqual(['primary', 'bias', 'secondary', 'primary'])
    expect(placedItems(moved).map((p) => p.over)).toEqual([1, 3, 3, 2])
  })

  it('keeps tape that the builder has set, but never thins a barrier', () => {
    const thick = setTape(split, 0, 5)
    expect(placedItems(moveItem(thick, 3, 1, rule))[0]!.over).toBe(5)
    const thin = setTape(split, 2, 0)
    expect(placedItems(moveItem(thin, 1, 2, rule))[1]!.over).toBeGreaterThanOrEqual(3)
  })

  it('keeps the halves of a winding joined in the order in which they lie', () => {
    const moved = moveItem(split, 0, 2, rule)
    const halves = moved.filter((i) => i.kind === 'winding' && i.winding === 'primary')
    expect(halves.map((h) => h.kind === 'winding' && [h.turns, h.startPin, h.finishPin])).toEqual([
      [31, 1, 2],
      [32, 2, 3],
    ])
  })

  it('loses no turn, keeps barriers, and refuses places that are not there (property)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -1, max: 4 }), fc.integer({ min: -1, max: 4 })), {
          maxLength: 12,
        }),
        (moves) => {
          const end = moves.reduce((s, [from, to]) => moveItem(s, from, to, rule), split)
          expect(placesOf(end)).toBe(4)
          for (const winding of ['primary', 'secondary', 'bias'])
            expect(turnsOf(end, winding)).toBe(turnsOf(split, winding))
          placedItems(end).forEach(({ item, over }, place, all) => {
            const above = all[place + 1]?.item
            const sides = [item, above].filter((i) => i?.kind === 'winding' && i.winding === 'secondary')
            if (above && sides.length === 1) expect(over).toBeGreaterThanOrEqual(3)
          })
        },
      ),
      { seed: 5 },
    )
  })
})

describe('splitting and joining', () => {
  const whole: readonly StackItem[] = [wind('primary', 63, 1, 3), tape(3), wind('secondary', 8, 10, 9)]
  it('are each other’s inverse', () => {
    const halves = splitWinding(whole, 0, { rowOne: 5, rowTwo: 5 })
    expect(
      halves?.map((i) =>
        i.kind === 'winding' ? [i.turns, i.startPin, i.finishPin] : i.kind === 'tape' ? i.layers : null,
      ),
    ).toEqual([[32, 1, 2], 1, [31, 2, 3], 3, [8, 10, 9]])
    expect(joinWinding(halves!, 0)).toEqual(whole)
  })
  it('join off the pins where no pin is free, and move such a joint on and off them at both ends', () => {
    const full = [wind('primary', 10, 1, 2), wind('bias', 3, 3, 4)]
    const pinsOf = (stack: readonly StackItem[]) =>
      stack.flatMap((i) => (i.kind === 'winding' ? [[i.startPin, i.finishPin]] : []))
    const halves = splitWinding(full, 0, { rowOne: 4, rowTwo: 4 })!
    expect(pinsOf(halves)).toEqual([
      [1, null],
      [null, 2],
      [3, 4],
    ])
    expect(joinWinding(halves, 0)).toEqual(full)
    const onPin = changeWinding(halves, 0, { finishPin: 5 })
    expect(pinsOf(onPin).slice(0, 2)).toEqual([
      [1, 5],
      [5, 2],
    ])
    expect(pinsOf(changeWinding(onPin, 1, { startPin: null }))).toEqual(pinsOf(halves))
    expect(pinsOf(moveItem(halves, 1, 0, rule)).slice(0, 2)).toEqual([
      [1, null],
      [null, 2],
    ])
  })
  it('say no where there is no second turn, or another winding', () => {
    expect(splitWinding([wind('secondary', 1, 10, 9)], 0, { rowOne: 5, rowTwo: 5 })).toBeNull()
    expect(joinWinding(whole, 0)).toBeNull()
  })
  it('a turned winding keeps its turns', () => {
    const turned = changeWinding(whole, 1, { direction: 'counter-clockwise' })
    expect(turned[2]).toMatchObject({ winding: 'secondary', direction: 'counter-clockwise', turns: 8 })
  })
})
