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
describe('12 V 94 W from 230 V on a 36 mm core', () => {
  const drawer = {
    ...starterDrawer,
    entries: starterDrawer.entries.filter(({ part }) => part.kind !== 'core' || part.size === 'E36/18/11'),
  }
  const proposed = proposeSupply(
    {
      ...need,
      source: { kind: 'mains', minimum_Vrms: 195, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
      output_A: 7.8,
    },
    drawer,
  )
  if (!proposed.ok) throw new Error(proposed.problems[0]!.message)
  // A builder's usual two choices for 230 V; everything else is left to the tool.
  const { build } = proposed.value
  const chosen = {
    ...proposed.value,
    build: { ...build, transformer: { ...build.transformer, reflectedVoltage_V: 110, rippleRatio: 0.7 } },
  }
  const judged = assess(chosen)
  if (!judged.ok) throw new Error(judged.problems[0]!.message)
  const { design } = judged.value.evaluation

  test('every limit holds', () => expect(judged.value.limits.filter((l) => !l.holds)).toEqual([]))
  test('gap of 0.4 to 0.9 mm', () => {
    expect(design.transformer.gap_m).toBeGreaterThan(0.4e-3)
    expect(design.transformer.gap_m).toBeLessThan(0.9e-3)
  })
  test('a few bias turns', () => expect(design.transformer.biasTurns).toBeLessThan(10))
  test('choke of 3.5 to 4 µH is wound with 0.85 to 1 mm wire', () => {
    const { ring } = design.choke!
    const turns = Array.from({ length: 30 }, (_, n) => n + 1)
    const fits = turns.filter((n) => {
      const inductance_H = ring.inductanceFactor_H * n * n
      return inductance_H >= 3.5e-6 && inductance_H <= 4e-6
    })
    expect(fits.length).toBeGreaterThan(0)
    expect(chokeInductance_H(design.choke!, 7.8)).toBeGreaterThan(1.5e-6)
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
