import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { recordHtml } from '../../src/drawing/index.ts'
import { drawerText, readDrawer, readSupply, supplyText } from '../../src/engine/file/file.ts'
import { openSupply } from '../../src/engine/file/open.ts'
import { assess } from '../../src/engine/limits/index.ts'
import { exportDrawerCsv, importDrawerCsv } from '../../src/engine/parts/index.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { hostileTexts, withEveryText } from '../support/hostile.ts'
import { sampleDrawer, sampleSupply } from '../support/sample.ts'

const bytes = (text: string) => new TextEncoder().encode(text)
const judged = assess(sampleSupply())
if (!judged.ok) throw new Error('the sample is not judged')
const record = recordHtml(judged.value, null)
const table = exportDrawerCsv({ ...starterDrawer, entries: starterDrawer.entries.slice(0, 40) })

/** A piece cut out of a text and another put in its place. */
const cuts = (length: number, put: fc.Arbitrary<string>) =>
  fc.record({ at: fc.nat(length), length: fc.nat(200), put, short: fc.boolean() })
const cut = (text: string, c: { at: number; length: number; put: string; short: boolean }) =>
  text.slice(0, c.at) + c.put + (c.short ? '' : text.slice(c.at + c.length))

const piece = fc.oneof(
  fc.string({ maxLength: 8, unit: 'binary' }),
  fc.constantFrom(
    ...hostileTexts,
    '__proto__',
    '\n',
    '"',
    ',',
    ';',
    '\t',
    '\r',
    '""',
    '=1+1',
    '1e999',
    '\ufeff',
  ),
  fc.constantFrom('<pre id="gapwright-file">', '</pre>', '&lt;', '&#39', '<', '{"__proto__":{}}'),
)

const sentences = (problems: readonly { message: string }[]) => {
  expect(problems.length).toBeGreaterThan(0)
  for (const { message } of problems) {
    expect(message.length).toBeGreaterThan(3)
    expect(message).not.toMatch(/undefined|\[object|NaN/)
  }
  expect(Object.keys(Object.prototype)).toEqual([])
}

describe('damaged by a stranger', () => {
  it('tables of parts are read or refused with rows and sentences; what is read is a drawer', () => {
    let read = 0
    fc.assert(
      fc.property(cuts(table.length, piece), (c) => {
        const result = importDrawerCsv(cut(table, c), 'Box')
        if (!result.ok) return sentences(result.problems)
        read++
        expect(readDrawer(drawerText(result.drawer))).toMatchObject({ ok: true, value: result.drawer })
      }),
      { seed: 21, numRuns: 1500 },
    )
    expect(read).toBeGreaterThan(0)
    fc.assert(
      fc.property(fc.string({ maxLength: 300, unit: 'binary' }), (text) => {
        const result = importDrawerCsv(text, 'Box')
        if (!result.ok) sentences(result.problems)
      }),
      { seed: 22, numRuns: 1000 },
    )
  })

  it('build records open as the supply that they told of, or not at all', () => {
    // Almost all of a record is paper: damage there leaves the file inside as it was.
    const start = record.indexOf('<pre id="gapwright-file">')
    const sample = sampleSupply()
    fc.assert(
      fc.property(cuts(record.length - start, piece), fc.boolean(), (c, inFile) => {
        const at = inFile ? start + c.at : Math.floor((c.at * start) / (record.length - start))
        const result = openSupply(bytes(cut(record, { ...c, at })))
        if (!result.ok) return sentences(result.problems)
        expect(result.value.format).toBe(sample.format)
        expect(readSupply(supplyText(result.value))).toMatchObject({ ok: true, value: result.value })
      }),
      { seed: 23, numRuns: 600 },
    )
  })

  it.each(hostileTexts)('%j stays a text in supply, drawer, table and record', (text) => {
    const supply = withEveryText(sampleSupply(), text, readSupply)
    const drawer = withEveryText(sampleDrawer(), text, readDrawer)
    expect(Math.min(supply.made, drawer.made)).toBeGreaterThan(20)
    expect(readSupply(supplyText(supply.file))).toMatchObject({ ok: true, value: supply.file })
    expect(readDrawer(drawerText(drawer.file))).toMatchObject({ ok: true, value: drawer.file })
    const table = importDrawerCsv(exportDrawerCsv(drawer.file), drawer.file.name)
    if (table.ok) expect(table.drawer).toEqual(drawer.file)
    else sentences(table.problems)
    const assessed = assess(supply.file)
    if (!assessed.ok) throw new Error('texts changed the verdict')
    expect(openSupply(bytes(recordHtml(assessed.value, drawer.file)))).toMatchObject({
      ok: true,
      value: supply.file,
    })
  })
})

describe('other encodings', () => {
  const encodings: [string, Buffer][] = (['utf16le', 'latin1'] as const).flatMap((encoding) => [
    [`record in ${encoding}`, Buffer.from(record.replace('Sample', 'Größe'), encoding)],
    [`drawer in ${encoding}`, Buffer.from(drawerText(sampleDrawer()).replace('Sample', 'Größe'), encoding)],
  ])
  it.each(encodings)('%s is refused with what to do', (name, content) => {
    const result = name.startsWith('drawer') ? readDrawer(content) : openSupply(content)
    expect(result.ok ? [] : result.problems.map((p) => p.message).join()).toMatch(/UTF-8/)
  })
})
