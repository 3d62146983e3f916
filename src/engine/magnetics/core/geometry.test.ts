import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coreShapes } from '../../parts/magnetic.ts'
import type { Former } from '../../parts/part.ts'
import { coreGeometry, effectiveParameters, formerProblems } from './index.ts'

const E25 = { A_m: 25e-3, B_m: 12.5e-3, C_m: 7.25e-3, D_m: 8.9e-3, E_m: 18e-3, F_m: 7.25e-3 }

const former: Former = {
  id: 'former-e25',
  kind: 'former',
  name: 'E25 former',
  fits: ['E25/13/7'],
  width_m: 15.4e-3,
  height_m: 4e-3,
  barrel: { section: 'rectangular', width_m: 9.3e-3, depth_m: 9.3e-3 },
  wall_m: 0.9e-3,
  flange_m: 1e-3,
  rowOne: 5,
  rowTwo: 5,
  rowDistance_m: 25e-3,
  temperature_C: 130,
}

describe('core geometry', () => {
  it('gives window and areas of an E core', () => {
    const g = coreGeometry({ shape: 'E', dimensions: E25 })
    if (!g.ok) throw new Error('refused')
    expect(g.value.window.height_m).toBeCloseTo(17.8e-3, 10)
    expect(g.value.window.width_m).toBeCloseTo(5.375e-3, 10)
    expect(g.value.outerToPostRatio).toBeCloseTo(7 / 7.25, 10)
    expect(g.value.height_m).toBeCloseTo(25e-3, 10)
    expect(g.value.postGapAt).toBe('middle')
  })

  it('an EI window has the height of one half and its gap at the plate', () => {
    const g = coreGeometry({ shape: 'EI', dimensions: E25 })
    if (!g.ok) throw new Error('refused')
    expect(g.value.window.height_m).toBeCloseTo(8.9e-3, 10)
    expect(g.value.height_m).toBeCloseTo(16.1e-3, 10)
    expect(g.value.postGapAt).toBe('plate')
  })

  it.each([
    [{ F_m: 20e-3 }, 'dimensions.F_m', 'post width F is 20 mm'],
    [{ E_m: 25e-3 }, 'dimensions.E_m', 'window width E is 25 mm'],
    [{ D_m: 13e-3 }, 'dimensions.D_m', 'window height D is 13 mm'],
    [{ A_m: Number.NaN }, 'dimensions.A_m', 'above 0'],
  ])('names an impossible dimension: %j', (change, path, words) => {
    const g = coreGeometry({ shape: 'E', dimensions: { ...E25, ...change } })
    expect(g.ok).toBe(false)
    if (g.ok) return
    expect(g.problems[0]?.path).toBe(path)
    expect(g.problems[0]?.message).toContain(words)
  })

  it('scales: twice the size is 4 times the area, 8 times the volume (property)', () => {
    const twice = (d: typeof E25) =>
      Object.fromEntries(Object.entries(d).map(([k, v]) => [k, 2 * v])) as typeof E25
    fc.assert(
      fc.property(
        fc.constantFrom(...coreShapes),
        fc.double({ min: 0.3, max: 0.7, noNaN: true }),
        (shape, q) => {
          const d = { ...E25, F_m: 18e-3 * q, F2_m: 6e-3, G_m: 12e-3 }
          const one = effectiveParameters(shape, d)
          const two = effectiveParameters(shape, twice(d))
          expect(two.area_m2 / one.area_m2).toBeCloseTo(4, 9)
          expect(two.volume_m3 / one.volume_m3).toBeCloseTo(8, 9)
          expect(one.length_m * one.area_m2).toBeCloseTo(one.volume_m3, 15)
        },
      ),
      { seed: 1 },
    )
  })
})

describe('former in a core', () => {
  const geometry = coreGeometry({ shape: 'E', dimensions: E25 })
  if (!geometry.ok) throw new Error('refused')
  it('accepts one that fits', () => expect(formerProblems(geometry.value, former)).toEqual([]))
  it.each([
    [{ width_m: 16.5e-3 }, 'former.width_m'],
    [{ height_m: 4.6e-3 }, 'former.height_m'],
    [
      { barrel: { section: 'rectangular' as const, width_m: 8.9e-3, depth_m: 9.3e-3 } },
      'former.barrel.width_m',
    ],
    [{ barrel: { section: 'round' as const, diameter_m: 9.3e-3 } }, 'former.barrel'],
  ])('refuses %j', (change, path) => {
    expect(formerProblems(geometry.value, { ...former, ...change }).map((p) => p.path)).toContain(path)
  })
})
