import { describe, expect, it, test } from 'vitest'
import { benchPapersOf } from '../../src/drawing/paper/bench-papers.ts'
import { assess, bench, loop, supplyLoop } from '../../src/engine/index.ts'
import { paperAsText } from '../../src/engine/papers/as-text.ts'
import { paperNames, paperOf } from '../../src/engine/papers/index.ts'
import { everything, judged, lamps } from '../reference/bench/supplies.ts'
import { r1, r1Switcher } from '../reference/r1/r1.ts'

const assessment = judged()
const plan = bench.powerUpPlan(assessment.evaluation, everything, lamps)
const modest = bench.powerUpPlan(assessment.evaluation, ['multimeter', 'lamp'], lamps)
const words = (of: bench.Plan, id: bench.StageId): string => {
  const stage = of.stages.find((s) => s.id === id)!
  return [stage.title, stage.purpose, ...stage.setUp, ...stage.cautions, ...stage.stops, stage.leave].join(
    ' ',
  )
}

describe('first light', () => {
  it('says the lowest input at which this very chip starts', () => {
    expect(plan.startInput_V).toBeGreaterThan(0)
    expect(words(plan, 'lamp')).toMatch(/Lowest input at which the chip starts: \d/)
    const base = r1()
    const late = { ...r1Switcher, minimumStartVoltage_V: 100 }
    const parts = base.parts.map((part) => (part.id === late.id ? late : part))
    const result = assess({ ...base, parts })
    if (!result.ok) throw new Error(result.problems[0]!.message)
    const other = bench.powerUpPlan(result.value.evaluation, everything, lamps)
    expect(other.startInput_V / plan.startInput_V).toBeCloseTo(100 / r1Switcher.minimumStartVoltage_V, 1)
  })

  it('says that a lamp or a weak source can itself make a healthy supply tick, and at which load', () => {
    expect(plan.lamp.note).toMatch(
      /weak source or a lamp in series can itself make a healthy supply tick: above \d+ %/,
    )
  })

  it('says which supply comes first where the control supply is fed from outside', () => {
    expect(words(plan, 'low-energy')).toMatch(/control supply on before any drain supply, off after it/)
  })

  it('discharges, and reads, after every stage that was live', () => {
    for (const stage of plan.stages.filter((s) => s.live))
      expect(stage.leave, stage.id).toMatch(/Discharge C2 \(.*J at .*then read it: below 5 V/)
  })
})

describe('what competent builders insist on stands where it is needed', () => {
  const cautions = modest.cautions.join(' ')
  const everywhere = [
    ...paperNames.map((name) => paperOf(name, assessment, null)),
    ...benchPapersOf(assessment, null),
  ]
  const paper = (id: string) => paperAsText(everywhere.find((p) => p.id === id)!)

  test.each([
    ['the primary stays charged', /stays charged after unplugging; it kills/],
    ['residual-current device and a switch', /Residual-current device, switch within reach/],
    [
      'one hand, not alone, no jewellery, eyes',
      /Not alone, one hand, no jewellery, no headphones, insulated tools, eye protection/,
    ],
    ['a screen', /behind a screen/],
    ['no earthed clip, no cut earth', /No earthed oscilloscope clip.*never by cutting the earth/],
    ['local codes', /does not certify anything; local codes decide/],
  ])('%s: among the cautions of the plan', (_, sentence) => expect(cautions).toMatch(sentence))

  test('a variac does not isolate: at every live stage, or that nothing isolates', () => {
    for (const stage of plan.stages.filter((s) => s.live))
      expect(stage.setUp.join(' '), stage.id).toMatch(/A variac alone does not isolate/)
    for (const stage of modest.stages.filter((s) => s.live))
      expect(stage.setUp.join(' '), stage.id).toMatch(/No isolation transformer is listed: no oscilloscope/)
  })

  test('the lamp limits, is no fuse and does not isolate: at the lamp', () =>
    expect(words(modest, 'lamp')).toMatch(/does not isolate and is no fuse.*not a fuse|no fuse/))

  test('a withstand test is a hazard itself: on the winding sheet', () =>
    expect(paper('winding-sheet')).toMatch(/withstand \(hipot\) test is a shock hazard itself/))

  test('parts across mains and barrier carry their class: on the parts list', () =>
    expect(paper('parts-list')).toMatch(/across the mains or the barrier carry their safety class/))

  test('what is valued stays unplugged until overshoot is known: on the build order', () =>
    expect(paper('build-order')).toMatch(/what you care about stays unplugged until overshoot is known/))

  test('creepage of the board, the core and screws: on the board notes', () =>
    expect(paper('board-notes')).toMatch(/screws, heatsinks and the core counted as what they touch/))

  test('not certified, charged after unplugging: on the label', () =>
    expect(paper('label')).toMatch(/charged after unplugging[\s\S]*Not certified/))
})

describe('the loop', () => {
  const judgedLoop = supplyLoop.loopOf(assessment.evaluation)

  it('reports its margin at the corners of input and load', () => {
    const known = judgedLoop.corners.filter((c) => c.margins.ok)
    expect(known.length).toBeGreaterThanOrEqual(4)
    const inputs = new Set(known.map((c) => c.condition.split('-')[0]))
    expect(inputs.size).toBeGreaterThanOrEqual(2)
    expect(judgedLoop.worst).not.toBeNull()
  })

  // Standard second-order loop: a twentieth left after n cycles.
  it('four cycles of ringing are a thin margin, and two changes to try', () => {
    const band = loop.marginFromRinging(4)
    expect(band.low_deg).toBeGreaterThan(5)
    expect(band.high_deg).toBeLessThan(25)
    const advice = loop.ringingAdvice(band)
    expect(advice).toHaveLength(2)
    expect(advice.join(' ')).toMatch(/compensation capacitor.*compensation resistor/)
  })
})
