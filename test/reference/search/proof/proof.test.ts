// Outside reference: eecircuit-engine 1.8.0 (ngspice in WebAssembly). The whole of it is docs/proofs/needs.md.
import { describe, expect, test } from 'vitest'
import { needsPage, violationsOf } from './page.ts'
import { type ProvedNeed, proveNeed } from './prove-need.ts'
import { randomNeed } from './random-need.ts'

/** Needs of the whole proof that have answers, by index: 16 V 1.65 A, 9.8 V 5.85 A, 7.9 V from either mains. */
const sample = [7, 6, 20]

describe('what the search offers, simulated', () => {
  const proved: ProvedNeed[] = []
  test.each(sample)(
    'need %i of the proof: drain, output and current limit hold at every corner',
    async (index) => {
      const one = await proveNeed(index, randomNeed(1, index), 'quick')
      proved.push(one)
      expect(one.supplies.length).toBeGreaterThan(0)
      const checks = one.supplies.flatMap((s) => s.checks)
      expect(checks.filter((check) => check.room < 0)).toEqual([])
      for (const what of ['drain', 'output', 'trip']) expect(checks.some((c) => c.what === what)).toBe(true)
    },
  )
  test('the page counts and lists what is violated', () => {
    expect(violationsOf(proved)).toBe(0)
    const [first, ...rest] = proved as [ProvedNeed, ...ProvedNeed[]]
    const [supply] = first.supplies
    const bad = {
      what: 'drain',
      corner: 'overload-maximum',
      room: -0.01,
      reading: 707,
      allowed: 700,
    } as const
    const broken = { ...first, supplies: [{ ...supply!, checks: [...supply!.checks, bad] }] }
    const page = needsPage(1, 'quick', [broken, ...rest])
    expect(page).toContain('**1 violation**')
    expect(page).toContain('| overload-maximum | drain | 707.0 | 700.0 |')
  })
})
