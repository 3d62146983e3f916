import { describe, expect, test } from 'vitest'
import { assess } from '../../../src/engine/limits/index.ts'
import { starterDrawer } from '../../../src/engine/parts/starter/index.ts'
import { proposeSupply } from '../../../src/engine/search/propose.ts'
import { chokeInductance_H } from '../../../src/engine/supply/resolve/choke.ts'
import { need } from '../r1/r1.ts'

/**
 * Common practice, no source: what builders of 12 V, 90 to 100 W supplies for 230 V at 100 kHz on an E-shape core of
 * about 35 mm find. One design made by the tool must fall among them.
 */
describe('12 V 94 W from 230 V on a 34 mm core', () => {
  const drawer = {
    ...starterDrawer,
    entries: starterDrawer.entries.filter(({ part }) => part.kind !== 'core' || part.size === 'ETD34/17/11'),
  }
  const supply = proposeSupply(
    {
      ...need,
      source: { kind: 'mains', minimum_Vrms: 195, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
      output_A: 7.8,
    },
    drawer,
  )
  if (!supply.ok) throw new Error(supply.problems[0]!.message)
  const judged = assess(supply.value)
  if (!judged.ok) throw new Error(judged.problems[0]!.message)
  const { design } = judged.value.evaluation

  test('every limit holds', () => expect(judged.value.limits.filter((l) => !l.holds)).toEqual([]))
  test('gap of 0.4 to 0.9 mm', () => {
    expect(design.transformer.gap_m).toBeGreaterThan(0.4e-3)
    expect(design.transformer.gap_m).toBeLessThan(0.9e-3)
  })
  test('a few bias turns', () => expect(design.transformer.biasTurns).toBeLessThan(10))
  test('choke of microhenries wound with 0.85 to 1 mm wire', () => {
    expect(chokeInductance_H(design.choke!, 7.8)).toBeGreaterThan(1.5e-6)
    expect(chokeInductance_H(design.choke!, 0)).toBeLessThan(6e-6)
    const wire = design.parts.chokeWire!
    expect(wire.construction === 'enamelled' && wire.bare_m).toBeGreaterThanOrEqual(0.85e-3)
    expect(wire.construction === 'enamelled' && wire.bare_m).toBeLessThanOrEqual(1e-3)
  })
  test('the 150 W chip in three pins has about 2.5 Ω', () =>
    expect(design.parts.switcher).toMatchObject({ onResistance25_ohm: 2.5, ratedPower230_W: 150, pins: 3 }))
  test('efficiency of 80 to 90 %', () => {
    const full = judged.value.evaluation.conditions.find((c) => c.condition.id === 'nominal-100')!
    expect(full.runs && full.readings.efficiency).toBeGreaterThan(0.8)
    expect(full.runs && full.readings.efficiency).toBeLessThan(0.9)
  })
})

describe('a drawer without what is needed', () => {
  test('is named kind by kind', () => {
    const bare = {
      ...starterDrawer,
      entries: starterDrawer.entries.filter(
        ({ part }) => part.kind !== 'core' && part.kind !== 'optocoupler',
      ),
    }
    const result = proposeSupply(need, bare)
    expect(result.ok).toBe(false)
    expect(!result.ok && result.problems.map((p) => p.path)).toEqual(['drawer.core', 'drawer.optocoupler'])
  })
})
