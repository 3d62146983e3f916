import { describe, expect, it } from 'vitest'
import {
  chokeInductance,
  ringGeometry,
  ringInductanceFactor,
  turnsForInductance,
} from '../../../src/engine/magnetics/choke/index.ts'

const rings = [
  ['12.7 mm, permeability 75', 12.7, 7.62, 4.826, 75, 32],
  ['20.3 mm, permeability 75', 20.32, 12.7, 6.35, 75, 45],
  ['12.7 mm, permeability 10', 12.7, 7.62, 4.826, 10, 4.9],
  ['50.8 mm, permeability 10', 50.8, 31.75, 13.97, 10, 12],
  ['9.4 mm, permeability 10', 9.4, 5.334, 3.048, 10, 4],
  ['20.3 mm, permeability 10', 20.32, 12.7, 6.35, 10, 5.5],
] as const

describe('inductance factor of powder rings from geometry', () => {
  it.each(rings)('%s', (_, outer, inner, height, permeability, AL_nH) => {
    const geometry = ringGeometry({ outer_m: outer * 1e-3, inner_m: inner * 1e-3, height_m: height * 1e-3 })
    if (!geometry.ok) throw new Error('refused')
    expect(Math.abs((ringInductanceFactor(geometry.value, permeability) * 1e9) / AL_nH - 1)).toBeLessThan(
      0.16,
    )
  })
})

describe('turns from an inductance factor', () => {
  it('12 µH with 49 µH a hundred turns: 49.5, so 50', () => {
    const geometry = ringGeometry({ outer_m: 12.7e-3, inner_m: 7.62e-3, height_m: 4.826e-3 })
    if (!geometry.ok) throw new Error('refused')
    const ring = {
      inductanceFactor_H: 4.9e-9,
      inductanceFactorTolerance: 0,
      biasCurve: [
        { field_A_per_m: 0, fraction: 1 },
        { field_A_per_m: 1e5, fraction: 1 },
      ],
    }
    const turns = turnsForInductance(ring, geometry.value, 12e-6, 0)
    expect(turns).toEqual({ ok: true, value: 50 })
    expect(chokeInductance(ring, geometry.value, 49, 0)).toBeLessThan(12e-6)
    expect(49.5 ** 2 * 4.9e-9).toBeCloseTo(12e-6, 7)
  })
})
