import { describe, expect, it } from 'vitest'
import { benchPapersOf } from '../../src/drawing/paper/bench-papers.ts'
import { readSupply, supplyText } from '../../src/engine/file/file.ts'
import { paperAsText } from '../../src/engine/papers/as-text.ts'
import { barrierOf } from '../../src/engine/papers/barrier.ts'
import { paperNames, paperOf } from '../../src/engine/papers/index.ts'
import { recordFront } from '../../src/engine/papers/record-front.ts'
import { windingSheet } from '../../src/engine/papers/winding-sheet.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import type { StackItem } from '../../src/engine/supply/build.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { judged, supplyNames, supplyOf } from '../drawing/supplies.ts'
import { r1 } from '../reference/r1/r1.ts'

/** R1 with enamelled wire between margins of 3 mm, and its board measured. */
const margins = (change: Partial<Supply['build']> = {}, stack: StackItem[] | null = null): Supply => {
  const base = r1({
    build: {
      places: { secondaryWire: 'wire-0.4mm-grade-2', primaryWire: 'wire-0.28mm-grade-2' },
      transformer: { insulation: 'margins', margin_m: 3e-3, stack },
    },
  })
  return { ...base, build: { ...base.build, boardCreepage_m: 8e-3, ...change } }
}
const barrier = (supply: Supply) => barrierOf(judged(supply).evaluation.design)
const broken = (supply: Supply) =>
  judged(supply)
    .limits.filter((l) => !l.holds)
    .map((l) => l.id)
const whole = barrier(margins())

describe('the barrier', () => {
  it('has no blank once the board is measured, and each link is required against achieved', () => {
    expect(whole.notStated).toEqual([])
    expect(whole.short).toEqual([])
    for (const link of whole.links) {
      expect(link.required, link.link).toBeGreaterThan(0)
      expect(link.achieved, link.link).toBeGreaterThanOrEqual(link.required)
    }
    for (const link of [
      'margin',
      'tape',
      'sleeving',
      'pin row',
      'core path',
      'board',
      'optocoupler',
      'Y capacitor',
    ])
      expect(whole.links.map((l) => l.link)).toContain(link)
    expect(barrier(margins({ boardCreepage_m: null })).notStated).toEqual(['board'])
  })

  it('is flagged without sleeving, as a link and as a limit', () => {
    expect(barrier(margins({ unsleeved: true })).short).toEqual(['sleeving'])
    expect(broken(margins({ unsleeved: true }))).toContain('insulation.sleeving')
    expect(broken(margins())).not.toContain('insulation.sleeving')
  })

  it('is flagged with a board of 3 mm, unless a slot breaks the way along it', () => {
    expect(barrier(margins({ boardCreepage_m: 3e-3 })).short).toEqual(['board'])
    expect(broken(margins({ boardCreepage_m: 3e-3 }))).toContain('insulation.board')
    expect(broken(margins({ boardCreepage_m: 3e-3, boardSlot_m: 1e-3 }))).not.toContain('insulation.board')
  })

  it('is flagged with a tape layer less than asked, and with the secondary on the primary’s pins', () => {
    const { stack } = judged(margins()).evaluation.design.transformer
    const thin = stack.map((item) =>
      item.kind === 'tape' && item.layers === 3 ? { ...item, layers: 1 } : item,
    )
    expect(barrier(margins({}, thin)).short).toContain('tape')
    expect(broken(margins({}, thin))).toContain('insulation.tape')
    const shared = stack.map((item) =>
      item.kind === 'winding' && item.winding === 'secondary' ? { ...item, startPin: 3 } : item,
    )
    expect(barrier(margins({}, shared)).short).toContain('pin row')
    expect(broken(margins({}, shared))).toContain('insulation.pins')
  })

  it('counts margin for creepage once for each side: 3 mm a side is no 6 mm at each', () => {
    const margin = whole.links.find((l) => l.link === 'margin')!
    const along = whole.links.find((l) => l.link === 'board')!
    expect(margin.required).toBeCloseTo(along.required / 2, 9)
    expect(whole.links.find((l) => l.link === 'core path')!.required).toBeCloseTo(along.required, 9)
  })

  it('comes back from the file as it was said', () => {
    const said = margins({ unsleeved: true, boardSlot_m: 1e-3 })
    const back = readSupply(supplyText(said))
    expect(back.ok && back.value.build).toEqual(said.build)
  })

  it('stands on the board notes beside the winding sheet, which says what insulates', () => {
    const assessment = judged(margins())
    expect(paperAsText(paperOf('board-notes', assessment, null))).toMatch(/Barrier walk.*guide/)
    const sheet = paperAsText(windingSheet(assessment.evaluation))
    expect(sheet).toMatch(/Margins: before each layer of wire lay tape of 3\smm/)
    expect(sheet).toMatch(/Sleeving .* every lead/)
    expect(sheet).toMatch(/No reading here certifies insulation/)
  })
})

describe('no paper', () => {
  it.each(supplyNames)(
    'of %s says that it is safe or complies, and each disowns being a certificate',
    (name) => {
      const assessment = judged(supplyOf(name))
      const papers = [
        ...paperNames.map((paper) => paperOf(paper, assessment, starterDrawer)),
        ...benchPapersOf(assessment, starterDrawer),
        recordFront(assessment.evaluation, assessment.limits, true),
      ]
      for (const paper of papers) {
        const text = paperAsText(paper)
        expect(text, paper.id).not.toMatch(/\bsafe(ly)?\b|compl(y|ies|iant)|\bcertified\b(?<!not certified)/i)
        expect(text, paper.id).toMatch(/no certificate/)
      }
    },
  )
})

describe('across the barrier', () => {
  it('only a part of a Y class may stand, and the list of parts asks for it', () => {
    const disc = r1({ build: { places: { yCapacitor: 'capacitor-disc-1nf-1000v' } } })
    expect(broken(disc)).toContain('y-capacitor.class')
    expect(barrier(disc).short).toContain('Y capacitor')
    const parts = paperAsText(paperOf('parts-list', judged(disc), null))
    expect(parts).toMatch(/OVER LIMIT: class Y1/)
  })

  // 2π · 50 Hz · 4.7 nF · 254 V = 0.375 mA: over the 0.25 mA of an output free of earth, under the 3.5 mA of an earthed
  // one (limits from memory of IEC 60950-1).
  it('a capacitor of 4.7 nF tingles at a free output, and is held against more where the output is earthed', () => {
    const touch = (outputEarthed: boolean) => {
      const base = r1({
        need: { source: { maximum_Vrms: 254 } },
        build: { places: { yCapacitor: 'capacitor-y1-4.7nf-400v' } },
      })
      const { limits } = judged({ ...base, need: { ...base.need, outputEarthed } })
      return limits.find((l) => l.id === 'y-capacitor.touch-current')!
    }
    expect(touch(false).reading * 1e3).toBeCloseTo(0.375, 2)
    expect(touch(false).holds).toBe(false)
    expect(touch(true)).toMatchObject({ holds: true, rating: 3.5e-3 })
  })
})
