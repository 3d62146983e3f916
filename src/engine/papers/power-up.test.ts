import { describe, expect, test } from 'vitest'
import { everything, judged, lamps } from '../../../test/reference/bench/supplies.ts'
import { judge } from '../bench/judge.ts'
import { powerUpPlan } from '../bench/plan/power-up-plan.ts'
import type { LogEntry } from '../supply/bench-log.ts'
import { paperAsText } from './as-text.ts'
import { benchLogPaper } from './bench-log.ts'
import { powerUpPaper } from './power-up.ts'

const { evaluation } = judged()
const plan = powerUpPlan(evaluation, ['multimeter', 'lamp', 'bench-supply', 'lcr-meter'], lamps)
const paper = powerUpPaper(evaluation, plan)
const text = paperAsText(paper)

describe('the power-up card', () => {
  test('holds every check of the plan with what is expected', () => {
    for (const stage of plan.stages)
      for (const c of stage.checks)
        expect(text, c.id).toContain(c.what.replace(/, (no load|\d+ % load)$/, ''))
    // 230 V nominal without load: about 314 V, ±10 %.
    expect(text).toMatch(/284–34\d.V/)
  })
  test('says how to discharge, what is skipped and why, and that it certifies nothing', () => {
    expect(text).toMatch(/Discharge C2/)
    expect(text).toMatch(/Skipped with the instruments at hand/)
    expect(text).toMatch(/does not certify/)
    expect(text).not.toMatch(/\bsafe\b|complies/i)
  })
  test('has few enough lines for two pages', () => {
    // About 72 lines of 7.6 pt fit a page of A4; a printed row may take two.
    const rows = paper.blocks.flatMap((b) => (b.kind === 'table' ? b.rows : []))
    expect(rows.length).toBeLessThan(100)
  })
  test('with everything owned nothing is skipped', () => {
    const all = paperAsText(powerUpPaper(evaluation, powerUpPlan(evaluation, everything, lamps)))
    expect(all).not.toMatch(/Skipped/)
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
