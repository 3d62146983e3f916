import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Drawer, drawer, exportDrawerCsv, importDrawerCsv, type Part, starterDrawer } from './index.ts'

const seed = 20240612
const awkward = fc.constantFrom(
  '=',
  '+',
  '-',
  '@',
  "'",
  '"',
  ',',
  ';',
  '\t',
  '\r',
  '\n',
  '|',
  '\\',
  ' ',
  'µ',
  '／',
  'a',
  '1',
)
const text = (maxLength: number) =>
  fc
    .oneof(fc.string({ maxLength, unit: 'grapheme' }), fc.string({ maxLength, unit: awkward }))
    .map((t) => t.slice(0, maxLength))
const filled = (maxLength: number) => text(maxLength).filter((t) => t.length > 0)
const size = fc.double({ min: 1e-6, max: 0.19, noNaN: true })

/** Any starter part with its free texts and prices, and for some kinds its figures, drawn anew. */
const somePart = fc
  .record({
    part: fc.constantFrom(...starterDrawer.entries.map((entry) => entry.part)),
    name: filled(60),
    note: fc.option(text(60), { nil: undefined }),
    source: fc.option(text(60), { nil: undefined }),
    price: fc.option(fc.double({ min: 0, max: 1e6, noNaN: true }), { nil: undefined }),
    words: fc.array(filled(20), { minLength: 1, maxLength: 4 }),
    lengths: fc.tuple(size, size, size),
  })
  .map(({ part, name, note, source, price, words, lengths }): Part => {
    const { note: _note, source: _source, price: _price, ...rest } = part
    const common = {
      name,
      ...(note === undefined ? {} : { note }),
      ...(source === undefined ? {} : { source }),
      ...(price === undefined ? {} : { price: price + 0 }),
    }
    if (rest.kind === 'former') return { ...rest, ...common, fits: words }
    if (rest.kind === 'core') {
      const [A_m, B_m, C_m] = lengths
      return { ...rest, ...common, dimensions: { ...rest.dimensions, A_m, B_m, C_m }, size: words[0]! }
    }
    return { ...rest, ...common } as Part
  })

const someDrawer = fc
  .array(fc.tuple(somePart, fc.option(fc.double({ min: 0, max: 1e6, noNaN: true }), { nil: null })), {
    maxLength: 25,
  })
  .map(
    (rows): Drawer => ({
      format: 'gapwright-drawer',
      version: 1,
      name: 'any',
      entries: rows.map(([part, quantity], i) => ({ part: { ...part, id: `p${i}` } as Part, quantity })),
    }),
  )
  .filter((d) => drawer.safeParse(d).success)

describe('a drawer through CSV', () => {
  it('comes back exactly, whatever its texts and figures', () => {
    fc.assert(
      fc.property(someDrawer, fc.constantFrom(',' as const, ';' as const), (any, separator) => {
        const result = importDrawerCsv(exportDrawerCsv(any, separator), 'any')
        expect(result).toEqual({ ok: true, drawer: any })
      }),
      { seed, numRuns: 150 },
    )
  })

  it('never throws on any text, and says what is wrong', () => {
    fc.assert(
      fc.property(fc.string({ unit: awkward, maxLength: 80 }), fc.boolean(), (junk, headed) => {
        const result = importDrawerCsv(headed ? `kind,id,name\n${junk}` : junk, 'any')
        if (!result.ok)
          for (const problem of result.problems) expect(problem.message.length).toBeGreaterThan(5)
      }),
      { seed, numRuns: 500 },
    )
  })

  it('leaves no cell that a spreadsheet would run', () => {
    fc.assert(
      fc.property(someDrawer, (any) => {
        const cells = exportDrawerCsv(any).match(/"(?:[^"]|"")*"|[^,\r\n"]+/g) ?? []
        for (const cell of cells) {
          const shown = cell.startsWith('"') ? cell.slice(1, -1) : cell
          if (/^[=+\-@\t\r\n]/.test(shown)) expect(Number.isFinite(Number(shown))).toBe(true)
        }
      }),
      { seed, numRuns: 100 },
    )
  })
})
