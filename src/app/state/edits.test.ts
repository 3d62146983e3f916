import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { applyChanges, beginHistory, redo, type Step, settle, take, undo, valueAt } from './edits.ts'

interface Doc {
  readonly a: { readonly b: number; readonly c: number }
  readonly list: readonly number[]
}

const start: Doc = { a: { b: 1, c: 2 }, list: [10, 20, 30] }
const set = (doc: Doc, path: (string | number)[], to: unknown, key: string | null = null): Step => ({
  label: path.join('.'),
  key,
  changes: [{ path, from: valueAt(doc, path), to }],
})

const paths = fc.constantFrom<(string | number)[]>(['a', 'b'], ['a', 'c'], ['list', 0], ['list', 2])

describe('edits', () => {
  it('replaces one place and shares the rest', () => {
    const next = applyChanges(start, [{ path: ['list', 1], from: 20, to: 21 }])
    expect(next.list).toEqual([10, 21, 30])
    expect(next.a).toBe(start.a)
    expect(start.list).toEqual([10, 20, 30])
  })

  it('gives back every earlier state on undo, and every later one on redo', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(paths, fc.integer()), { maxLength: 30 }), (edits) => {
        let history = beginHistory(start)
        const seen = [history.value]
        for (const [path, to] of edits) {
          const next = take(history, set(history.value, path, to))
          if (next !== history) seen.push(next.value)
          history = next
        }
        for (const value of seen.toReversed().slice(1)) {
          history = undo(history)
          expect(history.value).toEqual(value)
        }
        expect(undo(history)).toBe(history)
        for (const value of seen.slice(1)) {
          history = redo(history)
          expect(history.value).toEqual(value)
        }
      }),
      { seed: 7 },
    )
  })

  it('joins typing in one field to one step until it settles', () => {
    let history = beginHistory(start)
    for (const to of [4, 47, 470]) history = take(history, set(history.value, ['a', 'b'], to, 'field-b'))
    expect(history.past).toHaveLength(1)
    expect(undo(history).value).toEqual(start)
    history = take(settle(history), set(history.value, ['a', 'b'], 5, 'field-b'))
    expect(history.past).toHaveLength(2)
  })

  it('makes no step of a change that changes nothing', () => {
    const history = beginHistory(start)
    expect(take(history, set(start, ['a', 'b'], 1))).toBe(history)
  })
})
