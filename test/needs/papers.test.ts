import { describe, expect, it, test } from 'vitest'
import { benchPaperNames, benchPaperOf, benchPapersOf } from '../../src/drawing/paper/bench-papers.ts'
import { recordHtml } from '../../src/drawing/record/record-html.ts'
import { supplyText } from '../../src/engine/file/file.ts'
import { openSupply } from '../../src/engine/index.ts'
import { paperAsText } from '../../src/engine/papers/as-text.ts'
import { type paperNames, paperOf } from '../../src/engine/papers/index.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { judged, supplyNames, supplyOf } from '../drawing/supplies.ts'
import { r1 } from '../reference/r1/r1.ts'

/** R1 with everything in its record: purpose, log, readings with their meters, a note. */
function recorded(): Supply {
  const lcr = (value: number) => ({
    value,
    instrument: 'LCR meter no. 2',
    frequency_Hz: 10e3,
    accuracy: 0.02,
  })
  const base = r1({ asBuilt: { primaryInductance_H: lcr(871e-6), leakage_H: lcr(14e-6) } })
  return {
    ...base,
    revision: 'C',
    note: 'Primary leads run along the flange. Licence: public domain. Core taken from a scrapped supply.',
    need: { ...base.need, note: 'Bench lamp of the workshop' },
    bench: {
      ...base.bench,
      log: [
        {
          at: '2026-03-04T17:20',
          step: 'cold',
          check: 'insulation resistance',
          value: 4e9,
          unit: 'ohm',
          instrument: 'insulation meter',
          note: 'first coil failed at 20 MΩ and was unwound',
        },
      ],
    },
  }
}

const everything = judged(supplyOf('everything'))
const bench = (name: (typeof benchPaperNames)[number]) =>
  paperAsText(benchPaperOf(name, everything, starterDrawer))
const paper = (name: (typeof paperNames)[number]) => paperAsText(paperOf(name, everything, starterDrawer))

describe('every document that the bench needs', () => {
  test('winding sheet with dots and pins of both views, layer stack, cut list, tape and test card', () => {
    const sheet = paper('winding-sheet')
    for (const drawing of ['winding section', 'winding connections', 'former pins', 'former above'])
      expect(sheet).toContain(`(drawing on the printed page: ${drawing})`)
    expect(sheet).toMatch(/Cut[\s\S]*× \d\.\d\d m/)
    expect(sheet).toMatch(/layers of tape/)
    expect(sheet).toMatch(/TEST CARD[\s\S]*Leakage[\s\S]*Insulation/)
  })
  test('staged power-up card with room beside what is expected', () =>
    expect(bench('power-up')).toMatch(/First light[\s\S]*______ V/))
  test('fault card of this build', () => expect(bench('fault-card')).toMatch(/Gap too small/))
  test('parts list with what a substitute must stand', () =>
    expect(paper('parts-list')).toMatch(/Must stand/))
  test('order of populating and what is left out at first', () =>
    expect(paper('build-order')).toMatch(/Feedback[\s\S]*LEAVE OUT AT FIRST/i))
  test('label with input, output, fuse, warning, revision and date, and that nothing is certified', () =>
    expect(paper('label')).toMatch(
      /Input[\s\S]*Output[\s\S]*Fuse[\s\S]*DANGER[\s\S]*Not certified[\s\S]*Revision[\s\S]*date/,
    ))
  test('probing card', () => expect(bench('probing')).toMatch(/Tip.*Reference/))
  test('result form: regulation, power, efficiency and ripple by line and load, temperatures, bias', () => {
    const form = bench('results')
    for (const input of [/^85\sV /gm, /^230\sV /gm, /^265\sV /gm]) expect(form.match(input)).toHaveLength(4)
    expect(form).toMatch(/Efficiency/)
    expect(form).toMatch(/Ripple/)
    expect(form).toMatch(/U1, case/)
    expect(form).toMatch(/Bias voltage/)
    expect(form).not.toMatch(/NaN|undefined|Infinity/)
  })
})

describe('the probing card', () => {
  const live = benchPaperOf('probing', everything, starterDrawer).blocks.flatMap((block) =>
    block.kind === 'table' ? block.rows : [],
  )
  it('says of each live reading tip, reference, method and what keeps the builder apart from mains', () => {
    expect(live.length).toBeGreaterThan(4)
    for (const row of live)
      for (const column of [1, 2, 3, 4, 6]) expect(row[column]!.text, row[1]!.text).toMatch(/\S{3}/)
  })
  it('asks a probe that stands the drain', () => {
    const own = supplyOf('everything')
    const scoped = judged({
      ...own,
      bench: { ...own.bench, instruments: ['multimeter', 'lamp', 'oscilloscope', 'differential-probe'] },
    })
    const text = paperAsText(benchPaperOf('probing', scoped, starterDrawer))
    const drain = text.split('\n').find((line) => line.includes('U1 drain'))!
    expect(Number(drain.match(/(\d+)\sV/)?.[1])).toBeGreaterThan(500)
    expect(drain).toMatch(/both inputs float/)
  })
})

describe('the fault card', () => {
  const rows = benchPaperOf('fault-card', everything, starterDrawer).blocks.flatMap((block) =>
    block.kind === 'table' ? block.rows : [],
  )
  it('sets healthy beside faulty, and they differ', () => {
    const told = rows.filter((row) => row[2]!.text !== '')
    expect(told.length).toBeGreaterThan(10)
    for (const row of told) expect(row[3]!.text, row[0]!.text).not.toBe(row[2]!.text)
  })
  it('reads the missing gap by inductance, the shorted switch by ohms at its drain', () => {
    const of = (title: RegExp) => rows.find((row) => title.test(row[0]!.text))!
    expect(of(/Gap missing/i)[1]!.text).toMatch(/inductance/i)
    expect(of(/Switch shorted/)[1]!.text).toMatch(/drain|bulk/i)
  })
  it('follows the build: other inductance, other figures', () => {
    const other = judged(r1({ build: { transformer: { rippleRatio: 0.9 } } }))
    expect(paperAsText(benchPaperOf('fault-card', other, null))).not.toBe(
      paperAsText(benchPaperOf('fault-card', judged(r1()), null)),
    )
  })
})

describe('bench papers', () => {
  it.each(supplyNames)('of %s have no hole', (name) => {
    const assessment = judged(supplyOf(name))
    for (const sheet of benchPaperNames)
      expect(paperAsText(benchPaperOf(sheet, assessment, starterDrawer)), sheet).not.toMatch(
        /undefined|NaN|\[object|Infinity/,
      )
  })
})

describe('the build record', () => {
  const supply = recorded()
  const assessment = judged(supply)
  const html = recordHtml(assessment, starterDrawer, benchPapersOf(assessment, starterDrawer))
  const text = html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

  it('opens again as the supply that it was made from', () => {
    const opened = openSupply(new TextEncoder().encode(html))
    expect(opened.ok && supplyText(opened.value)).toBe(supplyText(supply))
  })

  test.each([
    ['purpose', /Bench lamp of the workshop/],
    ['limits of use: line, load, air, insulation', /85–265 V AC, 50 Hz.*12 V 2 A.*up to 25.°C.*reinforced/],
    ['revision', /Revision C/],
    ['core shape and grade', /E25\/13\/7, PW3a/],
    ['how the gap is made', /0\.\d+ mm in all, off the post/],
    ['turns, wire, direction, pins, layers and tape', /clockwise.*layers? of tape/],
    ['measured beside planned, with instrument and frequency', /871 µH.*LCR meter no\. 2, 10 kHz, ± 2 %/],
    ['chip and its limit', /current limit 1–1\.04 A/],
    ['feedback parts with their class', /transfer ratio 100 % to 200 %/],
    ['what a substitute must have', /Must stand here/],
    ['build sequence', /Build order/],
    ['power-up log as written', /2026-03-04 17:20.*first coil failed at 20 MΩ/],
    ['result form', /Result form/],
    ['deviations and source', /Core taken from a scrapped supply/],
    ['safety', /no proof that yours is like it/],
    ['licence', /Licence: public domain/],
  ])('holds its %s', (_, sentence) => expect(text).toMatch(sentence))

  it('draws schematic, section and former inside itself', () => {
    expect(html.match(/<svg/g)!.length).toBeGreaterThanOrEqual(5)
  })
})
