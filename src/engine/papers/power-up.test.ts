import { describe, expect, test } from 'vitest'
import { everything, judged, lamps } from '../../../test/reference/bench/supplies.ts'
import { judge } from '../bench/judge.ts'
import { powerUpPlan } from '../bench/plan/power-up-plan.ts'
import type { LogEntry } from '../supply/bench-log.ts'
import { asBuiltRows, asBuiltTable } from './as-built.ts'
import { paperAsText } from './as-text.ts'
import { benchLogPaper } from './bench-log.ts'
import { powerUpPaper } from './power-up.ts'
import { probingPaper } from './probing.ts'
import { recordBlanks } from './record-blanks.ts'
import { testPoints, withTestPoint } from './test-points.ts'

const { evaluation } = judged()
const plan = powerUpPlan(evaluation, ['multimeter', 'lamp', 'bench-supply', 'lcr-meter'], lamps)
const paper = powerUpPaper(evaluation, plan)
const text = paperAsText(paper)

describe('the power-up card', () => {
  test('says first of all not to power a transformer that measures 1.8 times what was planned', () => {
    const { typical } = evaluation.design.transformer.primaryInductance_H
    const read = { value: 1.8 * typical, instrument: 'LCR meter', frequency_Hz: 1e4, accuracy: 0.02 }
    const wrong = judged({ asBuilt: { primaryInductance_H: read } }).evaluation
    const [first] = powerUpPaper(wrong, powerUpPlan(wrong, ['multimeter', 'lcr-meter'], lamps)).blocks
    expect(first?.kind === 'caution' && first.text).toMatch(/^DO NOT POWER: .*half the gap/)
    expect(text).not.toMatch(/DO NOT POWER/)
  })
  test('holds every check of the plan with what is expected', () => {
    for (const stage of plan.stages)
      for (const c of stage.checks)
        expect(text, c.id).toContain(c.what.replace(/, (no load|\d+ % load)$/, ''))
    // 230 V nominal without load: about 314 V, ±10 %.
    expect(text).toMatch(/28\d–34\d.V/)
  })
  test('says how to discharge, what is skipped and why, and that it certifies nothing', () => {
    expect(text).toMatch(/Discharge C2/)
    expect(text).toMatch(/skipped with the instruments at hand/i)
    expect(text).toMatch(/does not certify/)
    expect(text).not.toMatch(/\bsafe\b|complies/i)
  })
  test('puts a caution at the head of every live group, and a discharge before the lamp comes out', () => {
    const kinds = paper.blocks.map((b) =>
      b.kind === 'heading' || b.kind === 'caution' ? `${b.kind} ${b.text}` : '',
    )
    for (const title of ['Through the lamp, no load', 'Full line', 'Short of the output'])
      expect(kinds[kinds.findIndex((k) => k.startsWith(`heading ${title}`)) + 1], title).toMatch(
        /^caution LIVE/,
      )
    const step = paper.blocks.find((b) => b.kind === 'list' && b.ticked)
    expect(step?.kind === 'list' && step.items[0]).toMatch(
      /below 5 V.*take the lamp out of the lead; the fuse .* stays in/,
    )
    expect(text).toMatch(/LED lamp will not do/)
  })
  test('tells the skipped readings as a list, shocks first', () => {
    const none = powerUpPaper(evaluation, powerUpPlan(evaluation, ['multimeter', 'lamp'], lamps))
    const list = none.blocks.find((b) => b.kind === 'list' && !b.ticked)
    const items = list?.kind === 'list' ? list.items : []
    expect(items.length).toBeGreaterThan(2)
    const heat = items.findIndex((i) => i.startsWith('Heat is met'))
    const switchLost = items.findIndex((i) => i.includes('may cost the switch'))
    expect(switchLost).toBeGreaterThanOrEqual(0)
    expect(heat).toBeGreaterThan(switchLost)
  })
  test('has few enough lines for two pages', () => {
    // About 72 lines of 7.6 pt fit a page of A4; a printed row may take two.
    const rows = paper.blocks.flatMap((b) => (b.kind === 'table' ? b.rows : []))
    expect(rows.length).toBeLessThan(100)
  })
  test('with everything owned nothing is skipped', () => {
    const all = paperAsText(powerUpPaper(evaluation, powerUpPlan(evaluation, everything, lamps)))
    // Current that passes through a person behind two windings comes back through the device: it sees no difference.
    expect(all).toMatch(/isolation transformer.* makes a residual-current device blind/i)
    expect(all).not.toMatch(/skipped/i)
  })
})

describe('the bench log on paper', () => {
  const entry = (check: string, value: number | null, note = ''): LogEntry => ({
    at: '2026-01-02T03:04:05',
    step: 'lamp',
    check,
    value,
    unit: 'V',
    instrument: 'meter 1',
    note,
  })
  const log = [
    entry('lamp.output', 17),
    entry('lamp.output', 12),
    entry('lamp.glow', null, 'flash'),
    entry('lamp.bias', 9),
  ]
  const { checks } = judge(plan, log, ['cold', 'transformer', 'low-energy'])
  const printed = paperAsText(benchLogPaper(evaluation, log, checks))

  test('keeps every reading, also the one that was taken again', () => {
    expect(printed).toMatch(/2026-01-02 03:04.*17.V.*read again later/)
    expect(printed).toMatch(/12.V.*in band/)
    expect(printed).toMatch(/flashes, then goes dark/)
    expect(printed).toMatch(/9.V.*low/)
  })
  test('without readings it says so', () => {
    expect(paperAsText(benchLogPaper(evaluation, [], []))).toMatch(/Nothing has been read yet/)
  })
  test('names what was measured as built', () => {
    const built = judged({
      asBuilt: {
        primaryInductance_H: { value: 870e-6, instrument: 'LCR', frequency_Hz: 1e4, accuracy: null },
      },
    })
    expect(paperAsText(benchLogPaper(built.evaluation, [], []))).toMatch(
      /As built: primary inductance.*870.µH, LCR at 10.kHz/,
    )
  })
})

describe('pulse, volts and insulation as built', () => {
  const meter = { instrument: 'tester', frequency_Hz: null, accuracy: 0.05 }
  const built = judged({
    asBuilt: {
      saturationCurrent_A: { value: 1.75, ...meter },
      secondaryVoltsRatio: { value: 7, ...meter, frequency_Hz: 1e4 },
      insulation_ohm: { value: 5e9, ...meter, test_V: 500 },
    },
  } as Parameters<typeof judged>[0])

  test('stand in the log with what they were read with', () => {
    const text = paperAsText(benchLogPaper(built.evaluation, [], []))
    expect(text).toMatch(/As built: bend of a pulse, core cold.*1\.75.A, tester/)
    expect(text).toMatch(/As built: primary over secondary volts.*7, tester at 10.kHz/)
    expect(text).toMatch(/As built: primary, bias and core to secondary.*5.GΩ, tester at 500.V dc/)
  })

  test('stand beside the plan with their bands; a ratio off its turns is outside', () => {
    const rows = asBuiltRows(built.evaluation)
    const of = (field: string) => rows.find((row) => row.field === field)!
    expect(of('saturationCurrent_A').agrees).toBe(true)
    // 63 to 8 turns are 7.9; as of nine turns it is 7.
    expect(of('secondaryVoltsRatio').agrees).toBe(false)
    expect(of('biasVoltsRatio').measured).toBeNull()
    expect(of('insulation_ohm')).toMatchObject({ agrees: true, low: 100e6, high: Number.POSITIVE_INFINITY })
    const text = JSON.stringify(asBuiltTable(built.evaluation))
    expect(text).toMatch(/over 100.MΩ/)
    expect(text).not.toMatch(/NaN|Infinity/)
  })

  test('an insulation reading says that the insulation was tested', () => {
    const says = (a: typeof built) => recordBlanks(a.evaluation, a.limits).map(({ what }) => what)
    expect(says(judged()).join(' ')).toMatch(/not said whether the insulation was tested/)
    expect(says(built).join(' ')).not.toMatch(/whether the insulation was tested/)
    expect(says(built).join(' ')).toMatch(/Primary over secondary volts reads 7 against/)
  })
})

describe('the probing card', () => {
  test('names its points as the printed schematic does', () => {
    expect(withTestPoint('C2 plus')).toBe('TP2, C2 plus')
    expect(withTestPoint('D1 cathode')).toBe('D1 cathode')
    const checks = plan.stages.flatMap((stage) => stage.checks)
    const text = paperAsText(probingPaper(evaluation, checks))
    for (const { name } of testPoints.filter((p) => p.node !== 'drain')) expect(text).toContain(name)
  })
})
