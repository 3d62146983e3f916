import { describe, expect, it } from 'vitest'
import { gapPermeance } from '../../../src/engine/magnetics/gap/index.ts'
import type { Design } from '../../../src/engine/supply/design.ts'
import { resolve } from '../../../src/engine/supply/evaluate.ts'
import type { Supply } from '../../../src/engine/supply/supply.ts'
import { planGap, readTransformer } from '../../../src/engine/supply/transformer/index.ts'
import { r1 } from './r1.ts'

const designOf = (supply: Supply): Design => {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]?.message)
  return design.value
}
const design = designOf(r1())
const at910 = { ...design, transformer: { ...design.transformer, aimedInductance_H: 910e-6 } }
const plan = planGap(at910, [
  { id: 'film', thickness_m: 0.125e-3, layers: null, temperature_C: 130 },
  { id: 'thin', thickness_m: 0.025e-3, layers: null, temperature_C: 130 },
])

describe('the gap of R1 in the builder’s terms', () => {
  // Arithmetic on paper of README.md, to the digits it prints.
  it('0.256 mm cut in the post on paper, half of it under every leg of equal area', () => {
    expect(plan.post.plain_m * 1e3).toBeCloseTo(0.256, 3)
    expect((plan.legs.plain_m * (1 + 1 / plan.outerToPostRatio)) / plan.post.plain_m).toBeCloseTo(1, 9)
    expect(plan.factor_H * 1e9).toBeCloseTo(229, 0)
  })

  it('cut and spacers give the same inductance within 1 %', () => {
    const post = gapPermeance(design.core.gap.post, plan.post.gap_m!)
    const legs = gapPermeance(design.core.gap['all-legs'], plan.legs.gap_m!)
    expect(Math.abs(post / legs - 1)).toBeLessThan(0.01)
  })

  it('makes the spacer of the films at hand', () => {
    expect(plan.films?.stack.layers.map(({ id, count }) => `${count} ${id}`)).toEqual(['1 film', '1 thin'])
    expect(Math.abs(plan.films!.error)).toBeLessThan(0.08)
  })

  // 1650 µH of about 900 planned: the thickness of a spacer was cut into the post.
  it('reads about half the gap in 1650 µH, and forbids power', () => {
    const supply = r1()
    const primaryInductance_H = { value: 1650e-6, instrument: 'LCR meter', frequency_Hz: 1e4, accuracy: 0.01 }
    const read = readTransformer(
      designOf({
        ...supply,
        bench: { ...supply.bench, asBuilt: { ...supply.bench.asBuilt, primaryInductance_H } },
      }),
    )
    expect(read.gap).toMatchObject({ code: 'half', doNotPower: true })
    expect(read.trueGap_m!.minimum).toBeLessThan(read.trueGap_m!.typical)
  })
})
