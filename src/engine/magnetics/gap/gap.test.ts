import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coreGeometry } from '../core/index.ts'
import { scaledI0, scaledI1, scaledK0, scaledK1 } from './bessel.ts'
import {
  coreReluctance,
  factorBand,
  gapForFactor,
  gapForInductance,
  gapFromMeasurement,
  gapGeometry,
  gapModel,
  gapPermeance,
  gapRange,
  gapWarnings,
  inductanceFactor,
  mu0,
  nearestFilmStack,
  plainPostGap,
  plainSpacer,
  rootFluxRatio,
} from './index.ts'

const E25 = coreGeometry({
  shape: 'E',
  dimensions: { A_m: 25e-3, B_m: 12.5e-3, C_m: 7.25e-3, D_m: 8.9e-3, E_m: 18e-3, F_m: 7.25e-3 },
  published: {
    effectiveArea_m2: 52e-6,
    effectiveLength_m: 57.5e-3,
    effectiveVolume_m3: 2990e-9,
    source: 'makers, from memory',
  },
})
if (!E25.ok) throw new Error('refused')
const geometry = gapGeometry(E25.value)
const core = E25.value.effective
const R = coreReluctance(core.C1_per_m, 2000)
const made = (place: 'post' | 'all-legs', cuts = 1) => {
  const model = gapModel(geometry, place, cuts)
  if (!model.ok) throw new Error('refused')
  return model.value
}
const post = made('post')
const legs = made('all-legs')

describe('Bessel functions (Abramowitz and Stegun, table 9.8)', () => {
  it.each([
    [0.5, 1.0634833707, 0.2578943054, 0.9244190712, 1.65644112],
    [1, 1.2660658778, 0.565159104, 0.4210244382, 0.6019072302],
    [3, 4.8807925859, 3.9533702174, 0.0347395044, 0.0401564311],
    [5, 27.2398718236, 24.3356421425, 0.0036910983, 0.0040446134],
  ])('x = %d', (x, I0, I1, K0, K1) => {
    const [up, down] = [Math.exp(-x), Math.exp(x)]
    expect(scaledI0(x) / (I0 * up)).toBeCloseTo(1, 6)
    expect(scaledI1(x) / (I1 * up)).toBeCloseTo(1, 6)
    expect(scaledK0(x) / (K0 * down)).toBeCloseTo(1, 6)
    expect(scaledK1(x) / (K1 * down)).toBeCloseTo(1, 6)
  })
  it('Wronskian I0 K1 + I1 K0 = 1/x', () => {
    for (let x = 0.05; x < 60; x *= 1.3)
      expect((scaledI0(x) * scaledK1(x) + scaledI1(x) * scaledK0(x)) * x).toBeCloseTo(1, 6)
  })
})

describe('gap arithmetic without fringing, reference supply of 910 µH with 63 turns', () => {
  // Arithmetic on paper: Ae 52 mm², le 57.5 mm, permeability 2000.
  const ungapped_H = (mu0 * 2000 * 52e-6) / 57.5e-3
  const gap_m = plainPostGap(52e-6, 910e-6 / 63 ** 2, ungapped_H)
  it('0.256 mm in the post or 0.128 mm under all legs', () => {
    expect(gap_m * 1e3).toBeCloseTo(0.256, 3)
    expect(plainSpacer(gap_m, 1) * 1e3).toBeCloseTo(0.128, 3)
  })
  it('outer legs of 0.8 of the post: 0.114 mm', () =>
    expect(plainSpacer(gap_m, 0.8) * 1e3).toBeCloseTo(0.114, 3))
  it('a full-value spacer leaves 0.53 of the inductance', () => {
    const L = 1 / (1 / ungapped_H + (2 * gap_m) / (mu0 * 52e-6)) / (910e-6 / 63 ** 2)
    expect(L).toBeCloseTo(0.53, 2)
  })
})

describe('gap with fringing', () => {
  it('falls steadily with the gap and its inverse returns it (property)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2e-5, max: 5e-3, noNaN: true }),
        fc.constantFrom(post, legs, made('post', 3)),
        (gap_m, model) => {
          const factor = inductanceFactor(model, R, gap_m)
          expect(inductanceFactor(model, R, gap_m * 1.01)).toBeLessThan(factor)
          const back = gapForFactor(model, R, factor)
          expect(back.ok && Math.abs(back.value / gap_m - 1)).toBeLessThan(1e-7)
        },
      ),
      { seed: 2 },
    )
  })

  it('is always more than without fringing', () => {
    for (const g of [1e-5, 1e-4, 1e-3, 4e-3])
      expect(gapPermeance(post, g)).toBeGreaterThan((mu0 * post.area_m2) / g)
  })

  it('tends to area over gap as the gap closes', () => {
    expect(gapPermeance(post, 1e-8) / ((mu0 * post.area_m2) / 1e-8)).toBeCloseTo(1, 2)
  })

  it('spread over several cuts it fringes less', () => {
    const one = gapPermeance(post, 1e-3)
    const three = gapPermeance(made('post', 3), 1e-3)
    const plain = (mu0 * post.area_m2) / 1e-3
    expect(three).toBeLessThan(one)
    expect(three).toBeGreaterThan(plain)
  })

  it('a spacer of half the gap is within a tenth of a cut in the post', () => {
    const ratio = gapPermeance(legs, 0.125e-3) / gapPermeance(post, 0.25e-3)
    expect(ratio).toBeGreaterThan(0.95)
    expect(ratio).toBeLessThan(1.1)
  })

  it('an EI core, its post facing the plate, is half of its mirror image', () => {
    const half = gapModel({ ...geometry, postGapAt: 'plate' }, 'post')
    const whole = gapModel(
      { ...geometry, window: { ...geometry.window, height_m: 2 * geometry.window.height_m } },
      'post',
    )
    if (!half.ok || !whole.ok) throw new Error('refused')
    expect(gapPermeance(half.value, 0.4e-3)).toBeCloseTo(2 * gapPermeance(whole.value, 0.8e-3), 15)
  })

  it('passes more flux at the root of the post than a turn links', () => {
    expect(rootFluxRatio(post, R, 0)).toBe(1)
    expect(rootFluxRatio(post, R, 0.3e-3)).toBeGreaterThan(1)
    expect(rootFluxRatio(post, R, 2e-3)).toBeGreaterThan(rootFluxRatio(post, R, 0.3e-3))
  })

  it('does not depend on the unit of length', () => {
    const k = 1000
    const scaled = gapModel(
      {
        post: {
          section: { kind: 'rectangular', width_m: 7.25, depth_m: 7.25 },
          area_m2: geometry.post.area_m2 * k * k,
          perimeter_m: geometry.post.perimeter_m * k,
          enclosed_m: geometry.post.enclosed_m * k,
        },
        window: { height_m: geometry.window.height_m * k, width_m: geometry.window.width_m * k },
        postGapAt: 'middle',
        legs: {
          area_m2: geometry.legs.area_m2 * k * k,
          inside_m: geometry.legs.inside_m * k,
          outside_m: geometry.legs.outside_m * k,
        },
        outsideSpan_m: geometry.outsideSpan_m * k,
      },
      'all-legs',
    )
    if (!scaled.ok) throw new Error('refused')
    expect(gapPermeance(scaled.value, 0.3e-3 * k) / (k * gapPermeance(legs, 0.3e-3))).toBeCloseTo(1, 9)
  })
})

describe('refusals', () => {
  it('names the field, the value and the limit', () => {
    expect(gapModel(geometry, 'post', 0)).toMatchObject({ ok: false, problems: [{ path: 'cuts' }] })
    expect(gapModel(geometry, 'all-legs', 2)).toMatchObject({ ok: false, problems: [{ path: 'cuts' }] })
    expect(gapRange(post, 8e-3)).toMatchObject({ ok: false, problems: [{ path: 'gap_m' }] })
    expect(gapRange(post, -1e-4)).toMatchObject({ ok: false })
    const high = gapForFactor(post, R, 3e-6)
    expect(high.ok).toBe(false)
    if (!high.ok) expect(high.problems[0]?.message).toContain('3000 nH')
    expect(gapForFactor(post, R, 1e-9)).toMatchObject({ ok: false })
    expect(gapForFactor(post, R, Number.NaN)).toMatchObject({ ok: false })
    expect(gapForInductance(post, R, 0, 1e-3)).toMatchObject({ ok: false, problems: [{ path: 'turns' }] })
  })
})

describe('bands', () => {
  const mu = { minimum: 1500, typical: 2000, maximum: 2500 }
  it('cover every corner', () => {
    const gap = { minimum: 0.2e-3, typical: 0.25e-3, maximum: 0.3e-3 }
    const band = factorBand(post, core.C1_per_m, mu, gap)
    if (!band.ok) throw new Error('refused')
    for (const m of [1500, 2500])
      for (const g of [0.2e-3, 0.3e-3]) {
        const factor = inductanceFactor(post, coreReluctance(core.C1_per_m, m), g)
        expect(factor).toBeGreaterThanOrEqual(band.value.minimum * (1 - 1e-12))
        expect(factor).toBeLessThanOrEqual(band.value.maximum * (1 + 1e-12))
      }
  })
  it('a measured inductance gives the gap back within its spread', () => {
    const factor = inductanceFactor(post, R, 0.25e-3)
    const gap = gapFromMeasurement(post, core.C1_per_m, mu, {
      minimum: factor * 0.98,
      typical: factor,
      maximum: factor * 1.02,
    })
    if (!gap.ok) throw new Error('refused')
    expect(gap.value.typical).toBeCloseTo(0.25e-3, 9)
    expect(gap.value.minimum).toBeLessThan(0.25e-3)
    expect(gap.value.maximum).toBeGreaterThan(0.25e-3)
  })
})

describe('spacer films', () => {
  const films = [
    { id: 'film-50', thickness_m: 50e-6, layers: null },
    { id: 'film-75', thickness_m: 75e-6, layers: 1 },
  ]
  it('finds the nearest stack', () => {
    const stack = nearestFilmStack(films, 128e-6)
    expect(stack).toMatchObject({
      ok: true,
      value: {
        layers: [
          { id: 'film-50', count: 1 },
          { id: 'film-75', count: 1 },
        ],
      },
    })
  })
  it('does not use more than there is', () => {
    const stack = nearestFilmStack(films, 150e-6)
    expect(stack).toMatchObject({ ok: true, value: { layers: [{ id: 'film-50', count: 3 }] } })
  })
  it('is no worse than any stack tried by hand (property)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3e-5, max: 3.5e-4, noNaN: true }),
        fc.nat(3),
        fc.nat(1),
        (wanted, a, b) => {
          if (a + b === 0 || a + b > 4) return
          const stack = nearestFilmStack(films, wanted)
          if (!stack.ok) throw new Error('refused')
          const other = a * 50e-6 + b * 75e-6
          expect(Math.abs(stack.value.thickness_m - wanted)).toBeLessThanOrEqual(
            Math.abs(other - wanted) + 2e-9,
          )
        },
      ),
      { seed: 3 },
    )
  })
  it('refuses an empty drawer', () => expect(nearestFilmStack([], 1e-4)).toMatchObject({ ok: false }))
})

describe('warnings', () => {
  it.each([
    ['post', 40e-6, 'impractical'],
    ['post', 80e-6, 'hard-to-keep'],
    ['all-legs', 0.6e-3, 'film-thick'],
  ] as const)('%s %d', (place, gap_m, code) => {
    expect(gapWarnings(place, gap_m).map((w) => w.code)).toContain(code)
  })
  it('film that cannot stand the heat', () =>
    expect(gapWarnings('all-legs', 0.2e-3, { temperature_C: 80 }).map((w) => w.code)).toEqual(['film-heat']))
  it('none for an ordinary cut', () => expect(gapWarnings('post', 0.25e-3)).toEqual([]))
})
