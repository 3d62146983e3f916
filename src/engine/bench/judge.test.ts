import { describe, expect, test } from 'vitest'
import { everything, judged, lamps } from '../../../test/reference/bench/supplies.ts'
import type { LogEntry } from '../supply/bench-log.ts'
import { judge } from './judge.ts'
import { powerUpPlan } from './plan/power-up-plan.ts'

const plan = powerUpPlan(judged().evaluation, everything, lamps)
const entry = (check: string, value: number | null, note = ''): LogEntry => ({
  at: '2026-01-02T03:04:05',
  step: check.slice(0, check.indexOf('.')),
  check,
  value,
  unit: '',
  instrument: 'multimeter',
  note,
})
const unpowered = ['cold', 'transformer', 'low-energy']
const standing = (log: LogEntry[], check: string, ticked: string[] = unpowered) =>
  judge(plan, log, ticked).checks.find((j) => j.check.id === check)!

describe('a reading', () => {
  test('in its band raises nothing', () => {
    const j = standing([entry('lamp.output', 12.05)], 'lamp.output')
    expect(j.standing).toBe('in band')
    expect(j.suspect).toBeNull()
  })
  test('below and above its band says what to suspect', () => {
    expect(standing([entry('lamp.output', 11)], 'lamp.output')).toMatchObject({ standing: 'low' })
    const high = standing([entry('transformer.leakage', 30e-6)], 'transformer.leakage')
    expect(high.standing).toBe('high')
    expect(high.suspect).toMatch(/clamp/)
  })
  test('past a stop rule says to switch off', () => {
    const j = standing([entry('lamp.output', 17)], 'lamp.output')
    expect(j.standing).toBe('stop')
    expect(j.suspect).toMatch(/off/)
  })
  test('overload of an ohmmeter is in a band that has no upper end', () => {
    expect(standing([entry('cold.drain-ohm', Number.POSITIVE_INFINITY)], 'cold.drain-ohm').standing).toBe(
      'in band',
    )
  })
  test('live, before its stage is unlocked, is flagged as too early; unpowered never is', () => {
    expect(standing([entry('lamp.bulk', 320)], 'lamp.bulk', ['cold']).standing).toBe('too early')
    expect(standing([entry('low.lights-at', 999)], 'low.lights-at').standing).not.toBe('too early')
  })
  test('the last one counts', () => {
    expect(standing([entry('lamp.output', 17), entry('lamp.output', 12)], 'lamp.output').standing).toBe(
      'in band',
    )
  })
})

describe('an answer', () => {
  test('expected, other, and by its words', () => {
    expect(standing([entry('lamp.glow', null, 'flash')], 'lamp.glow').standing).toBe('as expected')
    expect(standing([entry('lamp.glow', null, 'flashes, then goes dark')], 'lamp.glow').standing).toBe(
      'as expected',
    )
    expect(standing([entry('lamp.glow', null, 'bright')], 'lamp.glow').standing).toBe('stop')
    expect(standing([entry('lamp.glow', null, 'dark')], 'lamp.glow').standing).toBe('other answer')
    expect(standing([entry('lamp.warm', null, 'clamp')], 'lamp.warm').standing).toBe('other answer')
  })
})

test('flags, progress, next reading, values as built and symptoms', () => {
  const log = [
    entry('cold.bulk-ohm', 20),
    entry('transformer.inductance', 880e-6),
    entry('transformer.leakage', 16e-6),
    entry('lamp.glow', null, 'flash'),
  ]
  const j = judge(plan, log, unpowered)
  expect(j.flags.map((f) => f.check.id)).toEqual(['cold.bulk-ohm'])
  expect(j.asBuilt.map((a) => [a.field, a.measured.value])).toEqual([
    ['primaryInductance_H', 880e-6],
    ['leakage_H', 16e-6],
  ])
  expect(j.symptoms).toContainEqual({ check: 'lamp.glow', value: 'flash' })
  expect(j.symptoms).toHaveLength(4)
  const lamp = j.stages.find((s) => s.id === 'lamp')!
  expect(lamp).toMatchObject({ state: 'open', read: 1 })
  expect(j.next!.id).toBe('lamp.bulk')
})
