import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { assess, assessWhole } from '../../src/engine/limits/index.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import { proposeSupply } from '../../src/engine/search/propose.ts'
import type { Need } from '../../src/engine/supply/need.ts'
import { supply as supplySchema } from '../../src/engine/supply/supply.ts'
import { need } from '../reference/r1/r1.ts'

const wide = need.source
const high = {
  kind: 'mains',
  minimum_Vrms: 195,
  nominal_Vrms: 230,
  maximum_Vrms: 265,
  frequency_Hz: 50,
} as const
const low = {
  kind: 'mains',
  minimum_Vrms: 100,
  nominal_Vrms: 115,
  maximum_Vrms: 132,
  frequency_Hz: 60,
} as const

const near230 = {
  kind: 'mains',
  minimum_Vrms: 207,
  nominal_Vrms: 230,
  maximum_Vrms: 253,
  frequency_Hz: 50,
} as const
const full = {
  kind: 'mains',
  minimum_Vrms: 85,
  nominal_Vrms: 230,
  maximum_Vrms: 265,
  frequency_Hz: 50,
} as const

describe('the starter drawer', () => {
  test.each([
    ['24 V 3 A', { output_V: 24, output_A: 3 }],
    ['13.8 V 5 A charger', { source: high, output_V: 13.8, output_A: 5, feeds: 'charging' }],
    ['5 V 4 A', { output_V: 5, output_A: 4 }],
    ['12 V 2 A', { output_V: 12, output_A: 2 }],
    ['3.3 V 2 A', { output_V: 3.3, output_A: 2 }],
    ['12 V 3 A from 115 V', { source: low, output_V: 12, output_A: 3 }],
    ['19 V 1.5 A, trimmed', { output_V: 19, output_A: 1.5, trimLow_V: 18, trimHigh_V: 20 }],
    ['12 V 8 A from 230 V ±10 %', { source: near230, output_V: 12, output_A: 8, ripple_Vpp: 0.12 }],
    ['12 V 2 A from 85-265 V', { source: full, output_V: 12, output_A: 2, ripple_Vpp: 0.12 }],
    ['5 V 4 A from 85-265 V', { source: full, output_V: 5, output_A: 4, ripple_Vpp: 0.05 }],
    ['24 V 3 A from 85-265 V', { source: full, output_V: 24, output_A: 3, ripple_Vpp: 0.24 }],
    ['13.8 V 5 A from 85-265 V', { source: full, output_V: 13.8, output_A: 5, ripple_Vpp: 0.138 }],
    ['3.3 V 2 A from 85-265 V', { source: full, output_V: 3.3, output_A: 2, ripple_Vpp: 0.033 }],
    ['48 V 2 A from 85-265 V', { source: full, output_V: 48, output_A: 2, ripple_Vpp: 0.48 }],
  ] as const)('builds %s with every limit holding, those of the loop among them', (_name, change) => {
    const asked: Need = {
      ...need,
      trimLow_V: change.output_V,
      trimHigh_V: change.output_V,
      ...change,
    }
    const result = proposeSupply(asked, starterDrawer)
    if (!result.ok) throw new Error(result.problems[0]!.message)
    expect(supplySchema.safeParse(result.value).success).toBe(true)
    const judged = assessWhole(result.value)
    expect(judged.ok && judged.value.limits.filter((l) => !l.holds)).toEqual([])
  })
})

test('any need gets a supply that can be read, from parts that the drawer holds', () => {
  const ids = new Set(starterDrawer.entries.map(({ part }) => part.id))
  fc.assert(
    fc.property(
      fc.constantFrom(wide, high, low),
      fc.double({ min: 2.5, max: 30, noNaN: true }),
      fc.double({ min: 3, max: 120, noNaN: true }),
      fc.double({ min: 0, max: 55, noNaN: true }),
      fc.constantFrom('open', 'case-vented', 'case-closed', 'fan') as fc.Arbitrary<Need['cooling']>,
      (source, output_V, power_W, ambient_C, cooling) => {
        const output_A = Math.min(40, power_W / output_V)
        const asked = {
          ...need,
          source,
          output_V,
          trimLow_V: output_V,
          trimHigh_V: output_V,
          output_A,
          ambient_C,
          cooling,
        }
        const result = proposeSupply(asked, starterDrawer)
        expect(result.ok).toBe(true)
        if (!result.ok) return
        expect(supplySchema.safeParse(result.value).success).toBe(true)
        for (const part of result.value.parts) expect(ids.has(part.id)).toBe(true)
        expect(assess(result.value).ok).toBe(true)
      },
    ),
    { seed: 7, numRuns: 12 },
  )
})

test('a need far below what a switcher of the drawer gives is read too: its overload is many times its load', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(wide, high),
      fc.double({ min: 2, max: 55, noNaN: true }),
      fc.double({ min: -2.5, max: 1, noNaN: true }),
      (source, output_V, decades) => {
        const output_A = Math.max(0.02, 10 ** decades / output_V)
        const asked = { ...need, source, output_V, trimLow_V: output_V, trimHigh_V: output_V, output_A }
        const result = proposeSupply(asked, starterDrawer)
        if (!result.ok) throw new Error(result.problems[0]!.message)
        const judged = assess(result.value)
        if (!judged.ok) throw new Error(judged.problems[0]!.message)
        expect(judged.value.limits.every(({ margin }) => Number.isFinite(margin))).toBe(true)
      },
    ),
    { seed: 11, numRuns: 4, examples: [[high, 12, Math.log10(0.6)]] },
  )
})
