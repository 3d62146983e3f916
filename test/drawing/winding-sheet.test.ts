import { describe, expect, it } from 'vitest'
import { connectionParts, formerModel } from '../../src/drawing/supply/former-model.ts'
import { windingConnections } from '../../src/drawing/winding/connections.ts'
import { paperAsText } from '../../src/engine/papers/as-text.ts'
import type { Block, Step } from '../../src/engine/papers/document.ts'
import { cardRows } from '../../src/engine/papers/test-card.ts'
import { windingSheet } from '../../src/engine/papers/winding-sheet.ts'
import type { StackItem } from '../../src/engine/supply/build.ts'
import { crowdedPins, fightingParts, pinUses } from '../../src/engine/supply/transformer/pins.ts'
import { r1 } from '../reference/r1/r1.ts'
import { assessmentOf, judged, supplyNames } from './supplies.ts'

const stepsOf = (blocks: readonly Block[]): readonly Step[] =>
  blocks.flatMap((block) => (block.kind === 'steps' ? block.steps : []))

describe.each(supplyNames)('winding sheet of %s', (name) => {
  const { evaluation } = assessmentOf(name)
  const { transformer } = evaluation.design
  const { layout } = transformer.coil
  const sheet = windingSheet(evaluation)
  const steps = stepsOf(sheet.blocks)
  const windings = steps.slice(0, -1)

  it('has one numbered step a winding entry with box, pins, turns, layers and length, and one for the core', () => {
    expect(windings).toHaveLength(layout.sections.length)
    windings.forEach((step, index) => {
      const section = layout.sections[index]!
      const texts = step.cells.map((cell) => cell.text)
      expect(step.number).toBe(index + 1)
      expect(step.cells[0]?.kind).toBe('tick')
      expect(texts).toContain(String(section.turns))
      for (const pin of [section.startPin, section.finishPin])
        expect(texts.some((text) => new RegExp(`^(pin )?${pin}(,|$)`).test(text))).toBe(true)
      expect(texts.some((text) => /clockwise|counter/.test(text))).toBe(true)
      const each_m = Number(texts.find((text) => / × [0-9.]+ m$/.test(text))?.match(/× ([0-9.]+) m/)?.[1])
      // A cut wire is never shorter than its turns and its two tails; the printed figure is rounded to 10 mm.
      expect(each_m).toBeGreaterThanOrEqual(
        section.turns * section.meanTurn_m + 2 * layout.input.tail_m - 0.005,
      )
      expect(step.checks.length).toBeGreaterThanOrEqual(2)
      expect(step.checks.every((check) => /\d/.test(check.expect))).toBe(true)
    })
    expect(steps.at(-1)!.cells.some((cell) => cell.text.includes('Core'))).toBe(true)
    expect(steps.at(-1)!.checks).toHaveLength(1)
  })

  it('counts every turn of every winding on its tally', () => {
    const laid: Record<string, number> = {}
    windings.forEach((step, index) => {
      const { winding, turns, entry } = layout.sections[index]!
      laid[winding] = (laid[winding] ?? 0) + turns
      if (turns <= 3) return
      expect(step.tally?.count).toBe(turns)
      expect(step.tally?.layerEnds.at(-1)).toBe(turns)
      expect(step.tally?.layerEnds).toHaveLength(layout.layers.filter((l) => l.entry === entry).length)
    })
    expect(laid).toEqual({
      primary: transformer.primaryTurns,
      secondary: transformer.secondaryTurns,
      bias: transformer.biasTurns,
    })
  })

  it('says the tape after each step', () => {
    windings.forEach((step) => {
      expect(step.notes.join(' ')).toMatch(/layers? of tape|NO TAPE/)
    })
    const total = layout.tapes.filter((t) => t.between === 'entries').reduce((sum, t) => sum + t.layers, 0)
    const said = windings.reduce((sum, step) => {
      const after = step.notes.find((note) => /^(Then|Over all)/.test(note))
      return sum + Number(after?.match(/(\d+) layer/)?.[1] ?? 0)
    }, 0)
    expect(said).toBe(total)
  })

  it('reads the same as text', () => {
    const text = paperAsText(sheet)
    for (const step of windings) for (const check of step.checks) expect(text).toContain(check.expect)
    expect(text).not.toMatch(/undefined|NaN|\[object/)
  })
})

describe('split primary', () => {
  it('names the joint that is insulated and left unused', () => {
    const [first] = stepsOf(windingSheet(assessmentOf('split').evaluation).blocks)
    expect(first!.notes.join(' ')).toMatch(/Joint with the start of P2 on pin 2.*sleeve.*unused/)
  })

  it('sends the first start to the drain, the last finish to the bulk, and the joint nowhere', () => {
    const { sections } = assessmentOf('split').evaluation.design.transformer.coil.layout
    const primary = pinUses(sections).filter((use) => use.part.startsWith('P'))
    expect(primary.map((use) => [use.part, use.end, use.goesTo])).toEqual([
      ['P1', 'start', 'U1 drain'],
      ['P1', 'finish', ''],
      ['P2', 'start', ''],
      ['P2', 'finish', 'bulk +'],
    ])
  })
})

describe('dots', () => {
  // R1 of the public questions on dots: 63 to 8 turns read 1.27 and 0.76 of the primary in series, dots in line and
  // against; (1 ± 8/63)² by arithmetic. The pair is given with three digits.
  it('gives the aiding and opposing pair of R1', () => {
    const rows = cardRows(assessmentOf('simple').evaluation)
    const of = (what: string) => rows.find((row) => row.what === what)!.typical
    expect(of('Dots aiding') / of('Primary L')).toBeCloseTo(1.27, 2)
    expect(of('Dots opposing') / of('Primary L')).toBeCloseTo(0.76, 2)
  })

  // Volts go as turns (Faraday), a little more on the driven primary for its leakage; flux at the bend is that of the data.
  it('expects volts by turns and a pulse that bends at the cold saturation flux', () => {
    const { evaluation } = assessmentOf('simple')
    const rows = cardRows(evaluation)
    const of = (what: string) => rows.find((row) => row.what === what)!
    expect(of('Volts P : S').typical / (63 / 8)).toBeGreaterThan(1)
    expect(of('Volts P : S').typical / (63 / 8)).toBeLessThan(1.03)
    const { core, transformer } = evaluation.design
    const area_m2 = core.geometry.effective.minimumArea_m2
    // 490 mT at 25 °C is the point of the material that the supply uses.
    const flux_T =
      (of('Pulse bends').typical * of('Primary L').typical) / (transformer.primaryTurns * area_m2)
    expect(flux_T).toBeCloseTo(0.49, 3)
  })

  const turned = (winding: string): StackItem[] =>
    assessmentOf('simple').evaluation.design.transformer.stack.map((item) =>
      item.kind === 'winding' && item.winding === winding
        ? { ...item, direction: 'counter-clockwise' }
        : item,
    )

  it('move to the finish of a winding that turns the other way, and the meter follows', () => {
    const plain = assessmentOf('simple').evaluation
    const reversed = judged(r1({ build: { transformer: { stack: turned('secondary') } } })).evaluation
    const uses = (e: typeof plain) =>
      pinUses(e.design.transformer.coil.layout.sections).filter((use) => use.part === 'S')
    expect(uses(plain).map((use) => [use.dot, use.goesTo])).toEqual([
      [true, 'rectifier'],
      [false, 'output −'],
    ])
    expect(uses(reversed).map((use) => [use.dot, use.goesTo])).toEqual([
      [false, 'output −'],
      [true, 'rectifier'],
    ])
    const aiding = (e: typeof plain) => cardRows(e).find((row) => row.what === 'Dots aiding')!.how
    expect(aiding(reversed)).not.toBe(aiding(plain))
  })

  it('name a part that turns against the rest of its own winding', () => {
    const stack = assessmentOf('split').evaluation.design.transformer.stack.map((item, index) =>
      index === 0 && item.kind === 'winding' ? { ...item, direction: 'counter-clockwise' as const } : item,
    )
    const { evaluation } = judged(r1({ build: { transformer: { splitPrimary: true, stack } } }))
    expect(fightingParts(evaluation.design.transformer.coil.layout.sections)).toEqual(['P2'])
    expect(paperAsText(windingSheet(evaluation))).toContain('TURNS AGAINST')
  })
})

it('refuses in print a pin that two nets would share', () => {
  const stack = assessmentOf('simple').evaluation.design.transformer.stack.map((item) =>
    item.kind === 'winding' && item.winding === 'bias' ? { ...item, startPin: 2 } : item,
  )
  const { evaluation } = judged(r1({ build: { transformer: { stack } } }))
  expect(crowdedPins(evaluation.design.transformer.coil.layout.sections)).toEqual([
    { pin: 2, nets: ['bulk +', 'bias diode'] },
  ])
  expect(paperAsText(windingSheet(evaluation))).toContain('PIN 2 IS GIVEN TWICE')
})

describe('the joint of a split primary on a former of four pins a row', () => {
  const split = r1({ build: { transformer: { splitPrimary: true } } })
  const four = {
    ...split,
    parts: split.parts.map((part) => (part.kind === 'former' ? { ...part, rowOne: 4, rowTwo: 4 } : part)),
  }
  const { evaluation, limits } = judged(four)
  const { sections } = evaluation.design.transformer.coil.layout

  it('lies off the pins, so that no pin is given twice and none is missing', () => {
    expect(crowdedPins(sections)).toEqual([])
    expect(limits.find((l) => l.id === 'transformer.pins')).toMatchObject({
      reading: 4,
      rating: 4,
      holds: true,
    })
    expect(cardRows(evaluation)[0]!.how).toBe('1–2')
  })

  it('is insulated and left unused on the sheet, and drawn without a pin', () => {
    const text = paperAsText(windingSheet(evaluation))
    expect(text).toMatch(/Joint with the start of P2, on no pin: .*sleeve.*leave them unused/)
    expect(text).toMatch(/P1 .*pin 1 +joint/)
    const drawn = windingConnections(connectionParts(sections)).attributes['aria-label']
    expect(drawn).toContain('P1: start pin 1 to U1 drain, finish to a joint off the pins')
    expect(formerModel(evaluation.design).pins.map((use) => use.pin)).not.toContain(null)
  })

  it('is refused where an end of the whole winding would go to no pin', () => {
    const stack = evaluation.design.transformer.stack.map((item) =>
      item.kind === 'winding' && item.winding === 'secondary' ? { ...item, startPin: null } : item,
    )
    const bare = { ...four, build: { ...four.build, transformer: { ...four.build.transformer, stack } } }
    expect(() => judged(bare)).toThrow(/an end of the secondary goes to no pin/)
  })
})
