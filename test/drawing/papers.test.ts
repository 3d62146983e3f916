import { describe, expect, it } from 'vitest'
import { printedSchematic } from '../../src/drawing/supply/printed-schematic.ts'
import { paperAsText } from '../../src/engine/papers/as-text.ts'
import { barrierOf } from '../../src/engine/papers/barrier.ts'
import { paperNames, paperOf } from '../../src/engine/papers/index.ts'
import { partsListCsv } from '../../src/engine/papers/parts-list.ts'
import { partsRows } from '../../src/engine/papers/parts-rows.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { formatQuantity } from '../../src/engine/quantity/index.ts'
import type { StackItem } from '../../src/engine/supply/build.ts'
import { requiredCreepage } from '../../src/engine/supply/resolve/margin.ts'
import { r1 } from '../reference/r1/r1.ts'
import { assessmentOf, judged, supplyNames } from './supplies.ts'

describe.each(supplyNames)('papers of %s', (name) => {
  const assessment = assessmentOf(name)
  const text = (paper: (typeof paperNames)[number]) => paperAsText(paperOf(paper, assessment, starterDrawer))

  it.each(paperNames)('%s has no hole and promises nothing', (paper) => {
    expect(text(paper)).not.toMatch(/undefined|NaN|Infinity|\[object/)
    expect(text(paper)).not.toMatch(/\bsafe\b|\bcompl(y|ies|iant)\b|\bcertified by\b/i)
  })

  it('lists every part that the schematic draws, and draws every part that it lists', () => {
    const drawn = Object.values(printedSchematic(assessment.evaluation, assessment.limits).items).map(
      (item) => item.reference,
    )
    const listed = partsRows(assessment.evaluation, assessment.limits, null).map((row) => row.reference)
    const mechanical = (ref: string) => ref.startsWith('HS')
    expect([...new Set(listed)].filter((ref) => !mechanical(ref)).sort()).toEqual([...new Set(drawn)].sort())
  })

  it('fits every part of the schematic in the build order', () => {
    const order = text('build-order')
    for (const item of Object.values(printedSchematic(assessment.evaluation, assessment.limits).items))
      expect(order).toMatch(new RegExp(`\\b${item.reference}\\b`))
  })
})

it('says the same worst drain and rectifier volts on schematic and board notes as the limits do', () => {
  const assessment = assessmentOf('everything')
  const reading = (id: string) =>
    formatQuantity(assessment.limits.find((limit) => limit.id === id)!.reading, 'V')
  const text = (paper: (typeof paperNames)[number]) => paperAsText(paperOf(paper, assessment, null))
  const drain = reading('switcher.drain-voltage')
  expect(printedSchematic(assessment.evaluation, assessment.limits).nodes.drain).toContain(drain)
  expect(text('board-notes')).toMatch(new RegExp(`Drain to bulk.− and .*${drain}`))
  expect(text('board-notes')).toContain(reading('rectifier.reverse-margin'))
  expect(text('parts-list')).toContain(reading('rectifier.reverse-margin'))
})

it('fits heatsinks with the parts that they cool', () => {
  const places = { switcherHeatsink: 'heatsink-38-mm-extrusion', rectifierHeatsink: 'heatsink-clip-on' }
  const order = paperAsText(paperOf('build-order', judged(r1({ build: { places } })), null))
  expect(order).toMatch(/D4, HS2/)
  expect(order).toMatch(/U1, HS1/)
})

it('names the pins of the transformer on the printed schematic', () => {
  const { evaluation, limits } = assessmentOf('split')
  const { pins } = printedSchematic(evaluation, limits)
  const sections = evaluation.design.transformer.coil.layout.sections
  const primary = sections.filter((s) => s.winding === 'primary')
  expect(pins?.primary).toEqual([String(primary.at(-1)!.finishPin), String(primary[0]!.startPin)])
})

it('gives every row of the parts list what a substitute must stand', () => {
  const { evaluation, limits } = assessmentOf('everything')
  const bare = partsRows(evaluation, limits, null).filter((row) => row.requirement === '')
  expect(bare.map((row) => row.reference)).toEqual([])
})

it('writes as many lines of CSV as rows, and a head', () => {
  const { evaluation, limits } = assessmentOf('simple')
  const lines = partsListCsv(evaluation, limits, null).trimEnd().split(/\r?\n/)
  expect(lines).toHaveLength(1 + partsRows(evaluation, limits, null).length)
})

it('puts on the label input, output, fuse, warning, revision, date and that it is not certified', () => {
  const text = paperAsText(paperOf('label', assessmentOf('simple'), null))
  for (const part of ['Input', 'Output', 'Fuse', 'DANGER', 'Revision', 'date', 'Not certified'])
    expect(text).toContain(part)
})

it('says in the report which limits do not hold, and which is first', () => {
  const assessment = judged(r1({ need: { output_A: 4 } }))
  const text = paperAsText(paperOf('report', assessment, null))
  expect(assessment.holds).toBe(false)
  expect(text).toContain(assessment.givesFirst.title.toLowerCase())
  expect(text.match(/OVER:/g)).toHaveLength(assessment.limits.filter((limit) => !limit.holds).length)
})

describe('barrier walk', () => {
  const design = (name: Parameters<typeof assessmentOf>[0]) => assessmentOf(name).evaluation.design
  const link = (walk: ReturnType<typeof barrierOf>, which: string) => walk.links.find((l) => l.link === which)

  it('has no blank but the board, which the design does not hold', () => {
    for (const name of supplyNames) expect(barrierOf(design(name)).notStated).toEqual(['board'])
  })

  it('asks the creepage that the limits ask', () => {
    for (const name of supplyNames)
      expect(link(barrierOf(design(name)), 'pin row')!.required).toBeCloseTo(
        requiredCreepage(design(name).need).creepage_m,
        12,
      )
  })

  const margins = { insulation: 'margins', margin_m: 0.0025, splitPrimary: false } as const
  const wires = { secondaryWire: 'wire-0.4mm-grade-2', primaryWire: 'wire-0.28mm-grade-2' } as const

  it('flags tape that is missing between the sides', () => {
    const thin = judged(r1({ build: { places: wires, transformer: { ...margins, tapeBarrier: 1 } } }))
    expect(barrierOf(thin.evaluation.design).short).toContain('tape')
  })

  it('flags a secondary on the row of the primary', () => {
    const stack: StackItem[] = design('simple').transformer.stack.map((item) =>
      item.kind === 'winding' && item.winding === 'secondary' ? { ...item, finishPin: 3 } : item,
    )
    const mixed = judged(r1({ build: { transformer: { stack } } }))
    expect(barrierOf(mixed.evaluation.design).short).toContain('pin row')
  })

  it('flags enamelled wire where the wire alone is the barrier', () => {
    const bare = judged(r1({ build: { places: { secondaryWire: 'wire-0.4mm-grade-2' } } }))
    expect(barrierOf(bare.evaluation.design).short).toContain('wire')
  })

  it('flags a margin taken for the whole creepage of both', () => {
    const narrow = judged(r1({ build: { places: wires, transformer: { ...margins, margin_m: 0.001 } } }))
    expect(barrierOf(narrow.evaluation.design).short).toEqual(expect.arrayContaining(['margin', 'core path']))
  })
})
