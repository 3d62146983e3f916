import { describe, expect, test } from 'vitest'
import { everything, judged, lamps } from '../../../../test/reference/bench/supplies.ts'
import { atValley } from '../../../../test/reference/r1/r1.ts'
import { demoSupplies } from '../../demo/index.ts'
import { assess } from '../../limits/index.ts'
import { judge } from '../judge.ts'
import { powerUpPlan } from './power-up-plan.ts'
import type { Check, Plan } from './types.ts'

const { evaluation } = judged()
const full = powerUpPlan(evaluation, everything, lamps)
const bare = powerUpPlan(evaluation, ['multimeter', 'lamp'], lamps)
const checksOf = (plan: Plan): readonly Check[] => plan.stages.flatMap((s) => s.checks)
const find = (plan: Plan, id: string): Check => {
  const check = [...checksOf(plan), ...plan.inTrouble].find((c) => c.id === id)
  if (!check) throw new Error(`no check ${id}`)
  return check
}

describe('every stage', () => {
  for (const plan of [full, bare])
    for (const stage of plan.stages)
      test(`${stage.id} has a number with its band and unit, and a stop rule`, () => {
        const numbers = stage.checks.filter((c) => c.expected !== null)
        expect(numbers.length).toBeGreaterThan(0)
        for (const c of numbers) {
          const { low, high, typical } = c.expected!
          expect(Number.isFinite(typical)).toBe(true)
          expect(low !== null || high !== null).toBe(true)
          if (low !== null) expect(low).toBeLessThanOrEqual(typical)
          if (high !== null) expect(high).toBeGreaterThanOrEqual(typical)
          expect(c.expected!.why).not.toBe('')
        }
        expect(stage.stops.length).toBeGreaterThan(0)
        expect(stage.leave).not.toBe('')
      })

  test('a healthy unit breaks no stop rule', () => {
    for (const c of [...checksOf(full), ...full.inTrouble]) {
      if (c.expected === null || c.stop === null) continue
      if (c.stop.below !== null) expect(c.expected.typical, c.id).toBeGreaterThan(c.stop.below)
      if (c.stop.above !== null) expect(c.expected.typical, c.id).toBeLessThan(c.stop.above)
    }
  })

  test.each(demoSupplies().map((s) => [s.name, s] as const))(
    '%s: what holds every limit is asked to stop nowhere, and no band reaches past its stop',
    (_, s) => {
      const result = assess(s)
      if (!result.ok) throw new Error(s.name)
      expect(result.value.holds).toBe(true)
      for (const c of checksOf(powerUpPlan(result.value.evaluation, everything, lamps))) {
        if (c.expected === null || c.stop === null) continue
        const { low, typical, high } = c.expected
        if (c.stop.above !== null)
          expect(Math.max(typical, high ?? typical), c.id).toBeLessThanOrEqual(c.stop.above)
        if (c.stop.below !== null)
          expect(Math.min(typical, low ?? typical), c.id).toBeGreaterThanOrEqual(c.stop.below)
      }
    },
  )

  test('check ids are unique and short enough for the log', () => {
    const ids = [...checksOf(full), ...full.inTrouble].map((c) => c.id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const id of ids) expect(id.length).toBeLessThanOrEqual(80)
  })

  test('every number check of the plan says what a wrong value means', () => {
    for (const c of checksOf(full))
      if (c.expected !== null) expect(`${c.suspectLow}${c.suspectHigh}`, c.id).not.toBe('')
  })
})

describe('the numbers belong to this supply', () => {
  const at15 = powerUpPlan(
    judged({ need: { output_V: 15, trimLow_V: 15, trimHigh_V: 15, output_A: 1.6 } }).evaluation,
    everything,
    lamps,
  )
  const at110 = powerUpPlan(
    judged({
      need: {
        source: { kind: 'mains', minimum_Vrms: 85, nominal_Vrms: 120, maximum_Vrms: 135, frequency_Hz: 60 },
      },
    }).evaluation,
    everything,
    lamps,
  )
  const typical = (plan: Plan, id: string): number => find(plan, id).expected!.typical

  test('output voltage moves them at every stage that knows the output', () => {
    for (const id of [
      'low.lights-at',
      'lamp.output',
      'line-0.output',
      'line-100.output',
      'soak.output',
      'short.recovers',
    ])
      expect(typical(at15, id) / typical(full, id), id).toBeCloseTo(15 / 12, 1)
    expect(typical(at15, 'line-100.reflected')).toBeGreaterThan(1.15 * typical(full, 'line-100.reflected'))
    expect(typical(at15, 'cold.divider-top')).not.toBeCloseTo(typical(full, 'cold.divider-top'), 0)
  })

  test('input voltage moves bulk, drain, lamp and stop rules', () => {
    expect(typical(at110, 'lamp.bulk') / typical(full, 'lamp.bulk')).toBeCloseTo(120 / 230, 1)
    expect(typical(at110, 'line-100.spike')).toBeLessThan(0.75 * typical(full, 'line-100.spike'))
    expect(at110.lamp.voltage_V).toBe(120)
    expect(full.lamp.voltage_V).toBe(230)
    expect(find(at110, 'lamp.bulk').stop!.above!).toBeLessThan(200)
  })

  test('without load the bulk stands near the crest of the mains less the bridge', () => {
    expect(typical(full, 'lamp.bulk')).toBeGreaterThan(0.93 * 230 * Math.SQRT2)
    expect(typical(full, 'lamp.bulk')).toBeLessThan(230 * Math.SQRT2)
  })

  test('aiding and opposing are L (1 + 1/n)² and L (1 - 1/n)² less the leakage', () => {
    const L = typical(full, 'transformer.inductance')
    const n = typical(full, 'transformer.ratio-secondary')
    // Coupling of a winding with 2 % of leakage lowers the mutual part by 1 %.
    expect(typical(full, 'transformer.aiding') / (L * (1 + 1 / n) ** 2)).toBeCloseTo(1, 2)
    expect(typical(full, 'transformer.opposing') / (L * (1 - 1 / n) ** 2)).toBeCloseTo(1, 2)
    expect(typical(full, 'transformer.aiding') / L).toBeCloseTo(1.27, 1)
    expect(typical(full, 'transformer.opposing') / L).toBeCloseTo(0.76, 1)
  })

  test('bands of the inductance are those of the plan, and a reading 10 % off inside a 10 % band is no alarm', () => {
    const { low, high } = find(full, 'transformer.inductance').expected!
    const planned = evaluation.design.transformer.plannedInductance_H
    expect(low! / planned.minimum).toBeCloseTo(1, 1)
    expect(high! / planned.maximum).toBeCloseTo(1, 1)
  })
})

test('a pulse on the cold core must bend above the limit by as much as the ferrite loses when hot', () => {
  const knee = full.inTrouble.find((c) => c.id === 'transformer.knee')!
  // The material: 490 mT at 25 °C, 390 mT at 100 °C.
  const limit_A = evaluation.design.parts.switcher.currentLimit_A.maximum
  expect(knee.stop!.below! / limit_A).toBeCloseTo(490 / 390, 3)
  expect(knee.expected!.low!).toBeGreaterThanOrEqual(knee.stop!.below!)
})

describe('probing', () => {
  test('no way puts an earthed clip on the primary without a statement, and every live way has one', () => {
    for (const c of [...checksOf(full), ...full.inTrouble])
      for (const way of c.ways) {
        if (!c.live) continue
        expect(way.isolation, c.id).not.toBeNull()
        if (way.instruments.includes('oscilloscope') && c.side !== 'secondary') {
          const parted = ['differential-probe', 'isolation-transformer', 'current-probe'] as const
          expect(
            parted.some((p) => way.instruments.includes(p)),
            c.id,
          ).toBe(true)
        }
      }
  })

  test('a variac alone isolates nothing: no way on the primary counts on it', () => {
    for (const c of [...checksOf(full), ...full.inTrouble])
      for (const way of c.ways)
        if (way.instruments.includes('variac')) expect(way.instruments).toContain('isolation-transformer')
  })

  test('voltages have two points', () => {
    for (const c of checksOf(full))
      if (c.expected?.unit === 'V' || c.expected?.unit === 'ohm') {
        expect(c.probe?.at, c.id).toBeTruthy()
        expect(c.probe?.reference, c.id).toBeTruthy()
      }
  })

  test('oscilloscope settings fit the picture: two to eight divisions high', () => {
    const c = find(full, 'line-100.spike')
    const divisions = c.expected!.typical / c.scope!.perDivision_V
    expect(divisions).toBeGreaterThan(2)
    expect(divisions).toBeLessThanOrEqual(8)
    expect(c.scope!.probe_V).toBeGreaterThan(c.expected!.high!)
  })
})

describe('instruments', () => {
  test('every check is doable, has a substitute, or is skipped with its risk and what it would take', () => {
    for (const plan of [full, bare])
      for (const c of [...checksOf(plan), ...plan.inTrouble]) {
        if (c.chosen.state === 'skipped') {
          expect(c.chosen.risk.length, c.id).toBeGreaterThan(20)
          expect(c.chosen.wouldNeed.length, c.id).toBeGreaterThan(0)
        } else expect(c.chosen.way.how).not.toBe('')
      }
    expect(full.skipped).toEqual([])
    expect(bare.skipped.length).toBeGreaterThan(5)
  })

  test('a multimeter and a lamp do every cold and first-light reading that they can', () => {
    const cold = bare.stages.find((s) => s.id === 'cold')!
    expect(cold.checks.filter((c) => c.chosen.state === 'skipped')).toEqual([])
    expect(find(bare, 'lamp.bulk').chosen.state).toBe('doable')
    expect(find(bare, 'transformer.bias-sense').chosen.state).toBe('substitute')
    expect(find(bare, 'line-100.ramp').chosen.state).toBe('skipped')
  })
})

describe('locks', () => {
  test('nothing live is open before cold, transformer and low energy are ticked', () => {
    const before = judge(full, [], []).stages
    expect(before.filter((s) => s.state === 'open').map((s) => s.id)).toEqual(['cold'])
    const third = judge(full, [], ['cold', 'transformer']).stages
    for (const stage of full.stages.filter((s) => s.live))
      expect(third.find((s) => s.id === stage.id)!.state).toBe('locked')
    const open = judge(full, [], ['cold', 'transformer', 'low-energy']).stages
    expect(open.find((s) => s.id === 'lamp')!.state).toBe('open')
    expect(open.find((s) => s.id === 'lamp-load')!.state).toBe('locked')
  })

  test('no check of an unpowered stage is live, and every live one waits for the unpowered stages', () => {
    for (const stage of full.stages) {
      if (!stage.live && stage.id !== 'sign-off') expect(stage.checks.some((c) => c.live)).toBe(false)
      if (stage.live)
        expect(stage.after).toEqual(expect.arrayContaining(['cold', 'transformer', 'low-energy']))
    }
  })
})

test('other supplies get a plan too: fed from DC, and with a smaller switcher at hand', () => {
  const dc = assess(atValley())
  if (!dc.ok) throw new Error('does not resolve')
  const plan = powerUpPlan(dc.value.evaluation, ['multimeter', 'lamp'], lamps)
  expect(plan.stages.length).toBe(13)
  const used = evaluation.design.parts.switcher
  const small = {
    ...used,
    id: 'small',
    name: '700 V, 12 ohm switcher',
    currentLimit_A: { minimum: 0.55, typical: 0.6, maximum: 0.65 },
  }
  const with_ = powerUpPlan(evaluation, everything, lamps, small)
  expect(with_.stages.map((s) => s.id)).toContain('smaller-chip')
  // 0.6 A of 1.02 A, discontinuous at nominal input: the ceiling goes with the square.
  expect(with_.smaller!.output_W).toBeGreaterThan(9)
  expect(with_.smaller!.output_W).toBeLessThan(16)
  expect(with_.smaller!.folds).toBeLessThan(0.7)
  expect(powerUpPlan(evaluation, everything, lamps, { ...small, family: 'another' }).smaller).toBeNull()
})

test('a build that by calculation runs past a stop is told so before it is powered', () => {
  const hot = judged({
    build: { places: { switcherHeatsink: null, switcherPad: null } },
    need: { ambient_C: 55 },
  })
  const plan = powerUpPlan(hot.evaluation, everything, lamps)
  const usual = full.cautions.length
  expect(full.cautions.some((c) => c.includes('past the point'))).toBe(false)
  expect(find(plan, 'soak.switcher-C').expected!.typical).toBeGreaterThan(100)
  expect(plan.cautions.slice(usual).join(' ')).toMatch(/Switcher, settled: by calculation/)
})

describe('a transformer that measures 1.8 times the inductance planned', () => {
  const planned = judged()
  const { typical } = planned.evaluation.design.transformer.primaryInductance_H
  const measured = judged({
    asBuilt: {
      primaryInductance_H: {
        value: 1.8 * typical,
        instrument: 'LCR meter',
        frequency_Hz: 1e4,
        accuracy: 0.02,
      },
    },
  })
  const plan = powerUpPlan(measured.evaluation, everything, lamps)
  const inductance = find(plan, 'transformer.inductance')

  test('forbids power, with the reason, and says so once', () => {
    expect(plan.doNotPower.join(' ')).toMatch(/do not power/)
    expect(plan.doNotPower.join(' ').match(/do not power/g)).toHaveLength(1)
    expect(full.doNotPower).toEqual([])
  })

  test('still expects of the coil what was planned, with the band below the point of no power', () => {
    expect(inductance.expected!.typical).toBeCloseTo(typical, 9)
    expect(inductance.expected!.high!).toBeLessThanOrEqual(inductance.stop!.above!)
  })

  test('keeps every live stage locked, ticks or not', () => {
    const ticked = plan.stages.map((s) => s.id)
    for (const progress of judge(plan, [], ticked).stages) {
      const live = plan.stages.find((s) => s.id === progress.id)!.live
      expect(progress.state, progress.id).toBe(live ? 'locked' : 'done')
    }
  })
})
