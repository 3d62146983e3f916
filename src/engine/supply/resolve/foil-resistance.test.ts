import { expect, test } from 'vitest'
import { r1 } from '../../../../test/reference/r1/r1.ts'
import { postGap, stackField, stackResistances } from '../../magnetics/field/index.ts'
import { layerFields, resistanceClosedForm } from '../../magnetics/stack/index.ts'
import { starterDrawer } from '../../parts/starter/index.ts'
import { at, evaluate, resolve } from '../evaluate.ts'

const foil = starterDrawer.entries
  .map((e) => e.part)
  .find(
    (p) => p.kind === 'wire' && p.construction === 'foil' && p.width_m >= 12e-3 && p.thickness_m >= 0.1e-3,
  )!

test('a secondary of foil has the loss of the solved field, not that of a sheet in a line', () => {
  const base = r1()
  const supply = {
    ...base,
    parts: [...base.parts, foil],
    build: { ...base.build, places: { ...base.build.places, secondaryWire: foil.id } },
  }
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]!.message)
  const { layout, secondary, excess } = design.value.transformer.coil
  const f = design.value.parts.switcher.frequency_Hz.typical
  const solved = stackResistances(stackField(layout, postGap(0.3e-3, 1)), [f], 90)
  if (!solved.ok) throw new Error(solved.message)
  const i = layout.windings.indexOf('secondary')
  const whole = solved.matrices[0]!.resistance_ohm[i * layout.windings.length + i]!
  // Copper 20 to 90 °C: 1 + 70 × 3.93e-3 (IEC 60028).
  expect(excess.secondary_ohm[0]! + 1.275 * secondary.dcResistance_ohm).toBeCloseTo(whole, 4)
  const { resistance_ohm: closed } = resistanceClosedForm(
    layerFields(layout, { post: 1, outerLegs: 0 }),
    f,
    90,
  )
  expect(whole / closed[i * layout.windings.length + i]!).toBeGreaterThan(1.2)
  expect(at(evaluate(design.value), 'nominal-100')?.runs).toBe(true)
})
