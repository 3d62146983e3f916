import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawerText, readDrawer, readSupply, supplyText } from '../../src/engine/file/file.ts'
import { sampleDrawer, sampleSupply } from '../support/sample.ts'

/** 10,000 hostile or damaged files in all: each is read, or refused with a sentence; never a crash. */
const runs = { text: 3000, bytes: 1500, supply: 4500, drawer: 1000 }

type Read = (content: string | Uint8Array) => ReturnType<typeof readSupply> | ReturnType<typeof readDrawer>

function readsOrRefuses(read: Read, content: string | Uint8Array): boolean {
  const result = read(content)
  if (result.ok) return true
  expect(result.problems.length).toBeGreaterThan(0)
  expect(result.problems.length).toBeLessThanOrEqual(100)
  for (const problem of result.problems) {
    expect(problem.message.length).toBeGreaterThan(3)
    expect(problem.message).not.toMatch(/undefined|\[object|NaN/)
    expect(problem.message.length).toBeLessThanOrEqual(400)
    expect(problem.path.length).toBeLessThan(300)
  }
  expect(Object.keys(Object.prototype)).toEqual([])
  return false
}

/** All paths of a JSON value, to damage one at random. */
function pathsOf(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [path]
  return [
    path,
    ...Object.entries(value).flatMap(([key, inner]) =>
      pathsOf(inner, [...path, Array.isArray(value) ? Number(key) : key]),
    ),
  ]
}

const nasty = fc.oneof(
  fc.jsonValue({ maxDepth: 4 }),
  fc.constantFrom<unknown>(
    null,
    -1,
    0,
    1e308,
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    '\u0000\ud800',
    '../../etc/passwd',
    [],
    {},
    'x'.repeat(3000),
    Array.from({ length: 6000 }, () => 0),
    { toString: 1, valueOf: 2, hasOwnProperty: 3 },
  ),
)

type Damage = { place: number; kind: 'replace' | 'remove' | 'add'; put: unknown; key: string }

const damage: fc.Arbitrary<Damage> = fc.record({
  place: fc.nat(),
  kind: fc.constantFrom('replace', 'remove', 'add'),
  put: nasty,
  key: fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom('toString', 'hasOwnProperty', '__defineGetter__'),
  ),
})

function damaged(whole: unknown, paths: (string | number)[][], { place, kind, put, key }: Damage): string {
  const copy: unknown = structuredClone(whole)
  const path = paths[place % paths.length]!
  if (path.length === 0) return JSON.stringify(kind === 'add' ? { ...(copy as object), [key]: put } : put)
  let parent = copy as Record<string | number, unknown>
  for (const step of path.slice(0, -1)) parent = parent[step] as Record<string | number, unknown>
  const last = path.at(-1)!
  const target = parent[last]
  if (kind === 'replace') parent[last] = put
  else if (kind === 'remove' && Array.isArray(parent)) parent.splice(Number(last), 1)
  else if (kind === 'remove') delete parent[last]
  else if (Array.isArray(target)) target.push(put)
  else if (typeof target === 'object' && target !== null)
    Object.defineProperty(target, key, { value: put, enumerable: true, configurable: true })
  else parent[last] = [target]
  return JSON.stringify(copy)
}

describe('any file is read or refused with a sentence', () => {
  const wholeText = supplyText(sampleSupply())
  const supplyPaths = pathsOf(sampleSupply())
  const drawerPaths = pathsOf(sampleDrawer())

  it('supplies with one damaged place', () => {
    let read = 0
    fc.assert(
      fc.property(damage, (d) => {
        const text = damaged(sampleSupply(), supplyPaths, d)
        if (readsOrRefuses(readSupply, text)) {
          read++
          const result = readSupply(text)
          const again = result.ok ? readSupply(supplyText(result.value)) : result
          expect(again).toEqual(result)
        }
      }),
      { seed: 11, numRuns: runs.supply },
    )
    expect(read).toBeGreaterThan(0)
    expect(read).toBeLessThan(runs.supply / 2)
  })

  it('drawers with one damaged place', () => {
    fc.assert(
      fc.property(damage, (d) => {
        readsOrRefuses(readDrawer, damaged(sampleDrawer(), drawerPaths, d))
      }),
      { seed: 12, numRuns: runs.drawer },
    )
    expect(readDrawer(drawerText(sampleDrawer())).ok).toBe(true)
  })

  it('texts cut short, with a piece left out or put in', () => {
    fc.assert(
      fc.property(fc.nat(wholeText.length), fc.nat(60), fc.string({ maxLength: 8 }), (at, length, put) => {
        readsOrRefuses(readSupply, wholeText.slice(0, at))
        readsOrRefuses(readSupply, wholeText.slice(0, at) + put + wholeText.slice(at + length))
      }),
      { seed: 13, numRuns: runs.text / 2 },
    )
  })

  it('arbitrary bytes, and whole files in other encodings', () => {
    const bytes = fc.uint8Array({ maxLength: 400 })
    fc.assert(
      fc.property(bytes, (b) => {
        readsOrRefuses(readSupply, b)
      }),
      { seed: 14, numRuns: runs.bytes },
    )
    const utf16 = new Uint8Array(Buffer.from(`\ufeff${wholeText}`, 'utf16le'))
    expect(readsOrRefuses(readSupply, utf16)).toBe(false)
    expect(readsOrRefuses(readSupply, utf16.slice(2))).toBe(false)
    const latin1 = new Uint8Array(Buffer.from(wholeText.replace('Sample', 'Größe'), 'latin1'))
    expect(readsOrRefuses(readSupply, latin1)).toBe(false)
  })
})
