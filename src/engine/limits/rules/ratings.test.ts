import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../../demo/index.ts'
import type { PartsUsed } from '../../supply/design.ts'
import { assess } from '../assess.ts'
import { limits } from '../limits.ts'

const assessed = assess(demoSupplies()[2]!)
if (!assessed.ok) throw new Error('the demo is read')
const { evaluation } = assessed.value
const { parts } = evaluation.design

/** Ids of limits that break when a part of the phone sockets is another. */
const broken = (change: Partial<PartsUsed>): string[] =>
  limits({ ...evaluation, design: { ...evaluation.design, parts: { ...parts, ...change } } })
    .filter((limit) => !limit.holds)
    .map((limit) => limit.id)

// Each part is changed to one that its own rating forbids; nothing else may break by it.
describe('ratings of small parts', () => {
  test('the supply as built breaks none', () => expect(broken({})).toEqual([]))
  test('a film capacitor without a class across the mains', () => {
    const { safetyClass: _, ...plain } = parts.xCapacitor!
    expect(broken({ xCapacitor: plain as typeof parts.xCapacitor })).toEqual(['x-capacitor.class'])
  })
  test('a fuse that breaks 20 A, below the 35 A of the low class of IEC 60127 (from memory)', () =>
    expect(broken({ fuse: { ...parts.fuse!, breaking_A: 20 } })).toEqual(['fuse.breaking']))
  test('a bridge that melts before its fuse', () =>
    expect(broken({ bridge: { ...parts.bridge!, meltingIntegral_A2s: 1 } })).toEqual(['bridge.melting']))
  test('an optocoupler of 1.5 kV across 4 kV peak of strength test', () =>
    expect(broken({ optocoupler: { ...parts.optocoupler, isolation_Vrms: 1500 } })).toEqual([
      'optocoupler.isolation',
    ]))
  test('tape whose remaining layers stand less than the strength test', () =>
    expect(broken({ tape: { ...parts.tape, strength_V: 1500 } })).toEqual(['insulation.tape-strength']))
  test('a former with one pin for both ends of the secondary', () =>
    expect(broken({ former: { ...parts.former, rowTwo: 1 } })).toContain('transformer.pins-secondary'))
  test('a rectifier whose surge rating is below its peak current', () =>
    expect(broken({ rectifier: { ...parts.rectifier, surge_A: 5 } })).toEqual(['rectifier.surge']))
})
