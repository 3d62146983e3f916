import { describe, expect, test } from 'vitest'
import { r1 } from '../../../test/reference/r1/r1.ts'
import { demoSupplies } from '../demo/index.ts'
import { assess } from '../limits/index.ts'
import type { Supply } from '../supply/supply.ts'
import { cornerById } from './corner.ts'
import { gatherProof } from './prove.ts'
import { proveGroup } from './proved-corner.ts'

const corner = cornerById.get('maximum-crest-10-typical-warm')!

/** A tenth of the load at the highest input, by a chip that makes no shorter pulse. */
function proved(supply: Supply, minimumOnTime_s: number) {
  const changed = structuredClone(supply)
  for (const part of changed.parts) if (part.kind === 'switcher') part.minimumOnTime_s = minimumOnTime_s
  const assessed = assess(changed)
  if (!assessed.ok) throw new Error(assessed.problems[0]!.message)
  const { evaluation } = assessed.value
  const [solved] = proveGroup(evaluation.design, [corner])
  return { evaluation, design: evaluation.design, solved: solved! }
}

const lights = demoSupplies()[1]!

describe('pulses left out evenly', () => {
  /** Power that the core passes on, by its energy at the end of each pulse: L I²/2 times their number, any textbook. */
  const passed_W = (minimumOnTime_s: number) => {
    const { design, solved } = proved(lights, minimumOnTime_s)
    if (!solved.ok) throw new Error(solved.message)
    expect(solved.repeatsAfter).toBe(1)
    expect(solved.figures.output_V).toBeCloseTo(24, 3)
    const { parts, transformer } = design
    const rate_Hz = parts.switcher.frequency_Hz.typical / solved.clocks
    const W = 0.5 * transformer.primaryInductance_H.typical * solved.figures.primaryPeak_A ** 2 * rate_Hz
    return { clocks: solved.clocks, W }
  }
  const every = passed_W(2e-7)

  test('every clock makes a pulse where the shortest is short enough', () => expect(every.clocks).toBe(1))
  test.each([1.2e-6, 1.5e-6, 2e-6])(
    'a shortest pulse of %f s leaves clocks out, and passes on as much',
    (on_s) => {
      const some = passed_W(on_s)
      expect(some.clocks).toBeGreaterThan(1)
      // the load is the same; what the rectifier's side loses differs by a few milliwatts in six watts
      expect(Math.abs(some.W / every.W - 1)).toBeLessThan(0.01)
    },
  )
  test('the longer the shortest pulse, the more clocks pass', () => {
    const clocks = [1.2e-6, 1.5e-6, 2e-6].map((on_s) => passed_W(on_s).clocks)
    expect(clocks).toEqual([...clocks].sort((a, b) => a - b))
  })
})

describe('a duty that the chip cannot make short enough', () => {
  test('is told with the voltage that the shortest pulse lifts the output to, and found as skipping', () => {
    const on_s = 0.9e-6
    const { evaluation, design, solved } = proved(r1(), on_s)
    expect(solved).toMatchObject({ ok: false, code: 'too-much-at-least' })
    if (solved.ok) return
    const lifted_V = Number(/([\d.]+) V$/.exec(solved.message)![1])
    // Energy of the pulse, (V t)²/(2 L), into the load as a resistor; of it a tenth to a third goes in losses.
    const crest_V = 265 * Math.SQRT2
    const { primaryInductance_H: L } = design.transformer
    const pulse_W = ((crest_V * on_s) ** 2 / (2 * L.typical)) * design.parts.switcher.frequency_Hz.typical
    const load_ohm = 12 / (0.1 * design.need.output_A)
    expect(lifted_V).toBeGreaterThan(12)
    expect(lifted_V ** 2 / load_ohm / pulse_W).toBeGreaterThan(0.6)
    expect(lifted_V ** 2 / load_ohm / pulse_W).toBeLessThan(1.02)
    const { findings } = gatherProof(evaluation, [solved])
    expect(findings.map((f) => f.code)).toEqual(['skips'])
    expect(findings[0]!.sentence).toContain('leaves pulses out')
  })
})
