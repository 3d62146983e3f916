import { describe, expect, it } from 'vitest'
import { demoSupplies } from '../../demo/index.ts'
import type { Design } from '../design.ts'
import { resolve } from '../evaluate.ts'
import type { Supply } from '../supply.ts'
import { planGap } from './gap-plan.ts'
import { readTransformer } from './measured.ts'

const supply = demoSupplies()[0]!
const designOf = (s: Supply): Design => {
  const design = resolve(s)
  if (!design.ok) throw new Error(design.problems[0]?.message)
  return design.value
}
const design = designOf(supply)
const films = [0.05, 0.1, 0.19].map((mm) => ({
  id: `film-${mm}`,
  thickness_m: mm * 1e-3,
  layers: null,
  temperature_C: 130,
}))
const measured = (value: number) => ({ value, instrument: 'LCR meter', frequency_Hz: 1e4, accuracy: 0.01 })
const withBench = (asBuilt: Partial<Supply['bench']['asBuilt']>): Supply => ({
  ...supply,
  bench: { ...supply.bench, asBuilt: { ...supply.bench.asBuilt, ...asBuilt } },
})

describe('gap in the builder’s terms', () => {
  const plan = planGap(design, films)

  it('splits a spacer by the true ratio of leg to post: s = lg / (1 + Apost/Aleg) on paper', () => {
    expect(plan.legs.plain_m * (1 + 1 / plan.outerToPostRatio)).toBeCloseTo(plan.post.plain_m, 12)
    // Fringing passes more flux, so a real gap is larger than the paper one.
    expect(plan.post.gap_m).toBeGreaterThan(plan.post.plain_m)
    expect(plan.legs.gap_m).toBeLessThan(plan.post.gap_m!)
  })

  it('finds the stack of films nearest to the spacer, and what the meter reads with it', () => {
    const { films: stacked } = plan
    expect(Math.abs(stacked!.stack.thickness_m - plan.legs.gap_m!)).toBeLessThan(25e-6)
    expect(Math.sign(stacked!.error)).toBe(-Math.sign(stacked!.stack.thickness_m - plan.legs.gap_m!))
  })

  it('says when there is no film', () => {
    const none = planGap(design, [])
    expect(none.films).toBeNull()
    expect(none.noFilms).toMatch(/no spacer film/)
  })
})

describe('the finished transformer', () => {
  const { plannedInductance_H, turnsRatio, gap_m } = design.transformer
  const planned_H = plannedInductance_H.typical

  it('says nothing before it is measured', () => {
    const nothing = readTransformer(designOf(withBench({ primaryInductance_H: null, leakage_H: null })))
    expect(nothing.gap).toBeNull()
    expect(nothing.problems).toEqual([])
  })

  it('finds the planned gap in the planned inductance, within the meter', () => {
    const read = readTransformer(designOf(withBench({ primaryInductance_H: measured(planned_H) })))
    expect(read.gap?.code).toBe('right')
    expect(read.trueGap_m!.typical / gap_m).toBeCloseTo(1, 3)
    expect(read.trueGap_m!.minimum).toBeLessThan(gap_m)
  })

  // Arithmetic of the trade: half the gap gives not quite twice the inductance, for the core takes its part.
  it('knows half the gap, and forbids power', () => {
    const read = readTransformer(designOf(withBench({ primaryInductance_H: measured(1.75 * planned_H) })))
    expect(read.gap?.doNotPower).toBe(true)
    expect(read.gap?.code).toBe('half')
  })

  it('tells aiding from opposing, and a reversed winding', () => {
    const right = {
      aiding: planned_H * (1 + 1 / turnsRatio) ** 2,
      opposing: planned_H * (1 - 1 / turnsRatio) ** 2,
    }
    const good = readTransformer(
      designOf(
        withBench({
          aidingInductance_H: measured(right.aiding),
          opposingInductance_H: measured(right.opposing),
        }),
      ),
    )
    expect(good.sense).toMatchObject({ right: true, unclear: false })
    const bad = readTransformer(
      designOf(
        withBench({
          aidingInductance_H: measured(right.opposing),
          opposingInductance_H: measured(right.aiding),
        }),
      ),
    )
    expect(bad.sense?.right).toBe(false)
    const alone = readTransformer(designOf(withBench({ aidingInductance_H: measured(right.opposing) })))
    expect(alone.sense?.right).toBe(false)
  })

  it('flags a winding whose resistance asks for other turns', () => {
    const expected = design.transformer.coil.primary.dcResistance_ohm
    const read = readTransformer(designOf(withBench({ primaryResistance_ohm: measured(0.7 * expected) })))
    expect(read.winding?.flags.map((flag) => flag.code)).toContain('shorted-turn')
  })
})
