import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { paperDocument, paperPage, recordHtml } from '../../src/drawing/index.ts'
import { toMarkup } from '../../src/drawing/svg/node.ts'
import { readSupply, supplyText } from '../../src/engine/file/file.ts'
import { readRecord } from '../../src/engine/file/record.ts'
import { paperNames } from '../../src/engine/papers/index.ts'
import { recordBlanks } from '../../src/engine/papers/record-blanks.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { assessmentOf, judged, supplyNames, supplyOf } from './supplies.ts'

/** Every text that a stranger may write into a supply, replaced. */
function withTexts(base: Supply, text: string): Supply {
  const short = (limit: number) => text.slice(0, limit) || 'x'
  const size = short(40)
  return {
    ...base,
    name: short(120),
    revision: short(20),
    note: text,
    need: { ...base.need, note: text.slice(0, 2000) },
    parts: base.parts.map((part) => {
      const named = { ...part, name: short(120), note: text.slice(0, 2000), source: text.slice(0, 400) }
      if (named.kind === 'core') return { ...named, size }
      if (named.kind === 'former') return { ...named, fits: [size] }
      if (named.kind === 'material') return { ...named, class: short(40) }
      if (named.kind === 'switcher') return { ...named, family: short(60), package: short(60) }
      return named
    }),
    bench: {
      ...base.bench,
      instruments: [text.slice(0, 60)],
      log: [
        {
          at: text.slice(0, 40),
          step: text.slice(0, 80),
          check: text.slice(0, 80),
          value: 1,
          unit: text.slice(0, 20),
          instrument: text.slice(0, 120),
          note: text.slice(0, 2000),
        },
      ],
      asBuilt: {
        ...base.bench.asBuilt,
        leakage_H: { value: 1e-5, instrument: text.slice(0, 120), frequency_Hz: null, accuracy: null },
      },
    },
  }
}

const hostile = [
  '</pre><script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  '"><svg onload=alert(1)>',
  "' onmouseover='alert(1)",
  '<pre id="gapwright-file">{}</pre>',
  '</title></style><body onload=alert(1)>',
  '<!--',
  '-->',
  ']]>',
  '<![CDATA[',
  '&lt;b&gt;&amp;lt;',
  '&#60;script&#62;',
  '\u0000<b>',
  'javascript:alert(1)',
  '$& $1 $`',
  '\u202egnp.evil',
  '\ud800',
  '__proto__',
  '<style>*{display:none}</style>',
] as const

const allowedTags = new Set(
  'html head meta title style body article header footer h1 h2 p strong b ul li dl dt dd div span table caption thead tbody tr th td figure figcaption svg g path rect circle line polyline text details summary pre'.split(
    ' ',
  ),
)

/** Every tag that stands in the markup, with its attributes as written. */
const tagsOf = (html: string): RegExpMatchArray[] => [
  ...html
    .replace(/<style>[^<]*<\/style>/, '')
    .replace('<!doctype html>', '')
    .matchAll(/<\/?([^\s>/]*)([^>]*)>/g),
]

function expectTame(html: string): void {
  const wild = tagsOf(html).filter(
    ([, tag, attributes]) =>
      !allowedTags.has(tag!) || /[<'&]|\bon\w+=|\bhref|\bsrc/.test(attributes!.replace(/"[^"]*"/g, '""')),
  )
  expect(wild.map(([whole]) => whole)).toEqual([])
  // Outside of the tags no bare "<" is left for a parser to see.
  expect(
    html
      .replace(/<style>[^<]*<\/style>/, '')
      .replace(/<[^<>]*>/g, '')
      .includes('<'),
  ).toBe(false)
}

describe('text of strangers', () => {
  it.each(hostile)('%j is escaped in every paper and in the record', (text) => {
    const supply = withTexts(supplyOf('everything'), text)
    const assessment = judged(supply)
    for (const name of paperNames) expectTame(toMarkup(paperPage(assessment, name, starterDrawer)))
    const html = recordHtml(assessment, starterDrawer)
    expectTame(html)
    const back = readRecord(html)
    expect(back).toEqual({ ok: true, text: supplyText(supply) })
  })

  it('is escaped whatever it is, and the file comes back as it was', () => {
    const pieces = fc.array(fc.oneof(fc.constantFrom(...hostile), fc.string({ unit: 'binary' })), {
      maxLength: 6,
    })
    fc.assert(
      fc.property(pieces, (texts) => {
        const supply = withTexts(supplyOf('simple'), texts.join(' '))
        const html = recordHtml(judged(supply), null)
        expectTame(html)
        const back = readRecord(html)
        if (!back.ok) throw new Error(back.problems[0]!.message)
        const again = readSupply(back.text)
        expect(again.ok && supplyText(again.value)).toBe(supplyText(supply))
      }),
      { seed: 20, numRuns: 100 },
    )
  })

  it('cannot leave the title of a document', () => {
    expectTame(paperDocument('</title><script>1</script>', []))
  })
})

describe('build record', () => {
  it.each(supplyNames)('of %s holds its project file and forbids everything else', (name) => {
    const html = recordHtml(assessmentOf(name), null)
    expect(readRecord(html)).toEqual({ ok: true, text: supplyText(supplyOf(name)) })
    expect(readRecord(new TextEncoder().encode(html))).toEqual(readRecord(html))
    expect(html).toContain('default-src &#39;none&#39;')
    expect(html).not.toMatch(
      /<script|<link|<iframe|<object|<img|@import|url\(|https?:\/\/(?!www\.w3\.org\/2000\/svg)/,
    )
  })

  it('is still read after a browser has saved it again', () => {
    const html = recordHtml(assessmentOf('simple'), null)
    const saved = html
      .replaceAll('&quot;', '"')
      .replaceAll('&#39;', "'")
      .replaceAll('\n', '\r\n')
      .replaceAll('\u00a0', '&nbsp;')
    const back = readRecord(saved)
    expect(back.ok && readSupply(back.text)).toMatchObject({ ok: true, value: { id: 'r1' } })
  })

  const record = recordHtml(assessmentOf('simple'), null)
  const refused: [string, string | Uint8Array, RegExp][] = [
    ['an empty file', '', /no Gapwright file/],
    ['another page', '<!doctype html><p>hello</p>', /no Gapwright file/],
    [
      'a record with two files',
      record.replace('</body>', '<pre id="gapwright-file">{}</pre></body>'),
      /holds 2/,
    ],
    ['a record that is cut short', record.slice(0, record.lastIndexOf('</pre>')), /cut short/],
    ['a record with markup in its file', record.replace('&quot;format', '<b>&quot;format'), /markup/],
    ['bytes that are no text', new Uint8Array([0xff, 0xfe, 0x3c, 0x00]), /UTF/],
    ['a record too large', 'x'.repeat(33 * 1024 * 1024), /over 32 MiB/],
  ]
  it.each(refused)('refuses %s with a sentence', (_what, content, sentence) => {
    const result = readRecord(content)
    expect(result).toMatchObject({ ok: false, problems: [{ path: '', value: null }] })
    expect(!result.ok && result.problems[0]!.message).toMatch(sentence)
  })
})

describe('blanks of a record', () => {
  const read = (value: number, frequency_Hz: number | null = 1e5) => ({
    value,
    instrument: 'LCR meter',
    frequency_Hz,
    accuracy: 0.02,
  })
  const measured = (change: (supply: Supply) => void = () => {}): Supply => {
    const plan = assessmentOf('simple').evaluation.design.transformer
    const supply = structuredClone(supplyOf('simple'))
    supply.bench.asBuilt = {
      ...supply.bench.asBuilt,
      primaryInductance_H: read(plan.plannedInductance_H.typical),
      leakage_H: read(plan.plannedLeakage_H.typical),
      primaryResistance_ohm: read(plan.coil.primary.dcResistance_ohm, null),
      secondaryResistance_ohm: read(plan.coil.secondary.dcResistance_ohm, null),
      biasResistance_ohm: read(plan.coil.bias.dcResistance_ohm, null),
    }
    supply.bench.log = [
      {
        at: '2026-01-01T10:00',
        step: 'cold',
        check: 'insulation resistance',
        value: 5e8,
        unit: 'ohm',
        instrument: 'insulation meter',
        note: '',
      },
    ]
    change(supply)
    return supply
  }
  const stops = (supply: Supply): string[] => {
    const { evaluation, limits } = judged(supply)
    return recordBlanks(evaluation, limits).flatMap((blank) => (blank.stops ? [blank.what] : []))
  }

  it('are none where all is measured, named and logged', () => {
    expect(stops(measured())).toEqual([])
  })

  const cases: [string, (supply: Supply) => void, RegExp][] = [
    [
      'a reading that is missing',
      (s) => {
        s.bench.asBuilt.leakage_H = null
      },
      /Leakage.*not measured/,
    ],
    [
      'an instrument that is not named',
      (s) => {
        s.bench.asBuilt.primaryInductance_H!.instrument = ' '
      },
      /instrument is not named/,
    ],
    [
      'a frequency that is not said',
      (s) => {
        s.bench.asBuilt.leakage_H!.frequency_Hz = null
      },
      /frequency/,
    ],
    [
      'a deviation without a reason',
      (s) => {
        s.bench.asBuilt.primaryInductance_H!.value *= 1.8
      },
      /no note says why/,
    ],
    [
      'an empty log',
      (s) => {
        s.bench.log = []
      },
      /not been proved/,
    ],
    [
      'an insulation test that nobody mentions',
      (s) => {
        s.bench.log[0]!.check = 'continuity'
      },
      /insulation was tested/,
    ],
  ]
  it.each(cases)('name %s', (_what, change, sentence) => {
    expect(stops(measured(change)).join(' ')).toMatch(sentence)
  })

  it('accept a deviation that a note explains', () => {
    const explained = measured((s) => {
      s.bench.asBuilt.leakage_H!.value *= 3
      s.note = 'Leakage is high: thick secondary wire. Licence: public domain.'
    })
    expect(stops(explained)).toEqual([])
  })
})
