import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { namePlace, regionsOf } from './regions.ts'

const columns = 8
const grid = fc.array(fc.constantFrom('Drain voltage', 'Switcher case temperature', null), {
  minLength: 6 * columns,
  maxLength: 6 * columns,
})
const room = { across: (letters: number) => Math.ceil(letters / 6), down: (lines: number) => lines }

describe('regions of a range map', () => {
  it('parts two islands of one limit, the larger first, and leaves out what is too small for a mark', () => {
    const limits = ['a', 'a', null, 'a', 'a', 'a', 'a', null, 'a', 'a', null, 'a', 'a', 'a', null, 'b']
    const sizes = regionsOf(limits, 8).map(({ limit, cells }) => [limit, cells.length])
    expect(sizes).toEqual([
      ['a', 7],
      ['a', 4],
    ])
  })

  it('never counts a cell twice, nor one of another limit', () => {
    fc.assert(
      fc.property(grid, (limits) => {
        const found = regionsOf(limits, columns)
        const cells = found.flatMap((region) => region.cells)
        expect(new Set(cells).size).toBe(cells.length)
        for (const { limit, cells } of found) for (const i of cells) expect(limits[i]).toBe(limit)
      }),
    )
  })

  it('puts a name inside its region in whole words, or leaves it to the legend', () => {
    fc.assert(
      fc.property(grid, (limits) => {
        for (const { limit, cells } of regionsOf(limits, columns)) {
          const { lines, at } = namePlace(limit, cells, columns, room)
          const mine = new Set(cells)
          for (let row = 0; row < at.down; row++)
            for (let column = 0; column < at.across; column++)
              expect(mine.has(at.from + row * columns + column)).toBe(true)
          if (lines.length > 0) expect(lines.join(' ')).toBe(limit)
        }
      }),
    )
  })
})
