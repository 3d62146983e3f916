import { describe, expect, it } from 'vitest'
import { coreGeometry } from '../../../src/engine/magnetics/core/index.ts'
import {
  gapGeometry,
  gapPermeance,
  inductanceFactor,
  mu0,
  rootFluxRatio,
} from '../../../src/engine/magnetics/gap/index.ts'
import { closedSide, openSide } from '../../../src/engine/magnetics/gap/reach.ts'
import { exactRoundGap } from './mode-matching.ts'
import { byId, model, named, number, rectangularCase, ring, roundCase } from './models.ts'

describe('round post against finite elements', () => {
  const core_per_H = 1 / number(byId('G1-M-full-g0').result, 'L_per_N2')

  // Goal 3 %; a cut in the post does far better, a spacer has the outside field as an estimate.
  it.each(named('gap_inductance').filter(([, c]) => number(c.geometry, 'centre_gap') > 0))('%s', (_, c) => {
    const spacer = number(c.geometry, 'outer_ring_gap') > 0
    const made = model(roundCase(c), spacer ? 'all-legs' : 'post')
    const gap_m = number(c.geometry, 'centre_gap')
    const factor = inductanceFactor(made, core_per_H, gap_m)
    expect(Math.abs(factor / number(c.result, 'L_per_N2') - 1)).toBeLessThan(spacer ? 0.02 : 0.005)
    const root = number(c.result, 'flux_post_root_per_ampere_turn') / number(c.result, 'L_per_N2')
    // 3 %: the former keeps the winding off the post, which the model does not know.
    expect(Math.abs(rootFluxRatio(made, core_per_H, gap_m) - root)).toBeLessThan(0.03)
  })

  it('the mode solution agrees with finite elements to 0.1 %', () => {
    for (const gap_mm of ['0.1', '0.3', '0.6', '1.0', '2.0']) {
      const c = byId(`G1-M-full-g${gap_mm}`)
      const permeance_H = mu0 * exactRoundGap(5.5e-3, 7e-3, 21e-3, Number(gap_mm) * 1e-3)
      const factor = permeance_H / (1 + permeance_H * core_per_H)
      expect(Math.abs(factor / number(c.result, 'L_per_N2') - 1)).toBeLessThan(0.001)
    }
  })
})

describe('round posts of other sizes against the mode solution', () => {
  const sizes = [
    ['tall window', 5.5, 4, 40],
    ['very tall window', 4, 2.5, 24],
    ['wide window', 5.5, 12, 11],
    ['small post', 2.2, 3, 11],
    ['large post', 12, 10, 40],
  ] as const
  // Goal 3 %; 1 % is left by the terms in gap squared.
  for (const [name, r, w, h] of sizes)
    for (const gap_mm of [0.1, 0.5, 1, 2])
      it(`${name}, ${gap_mm} mm`, () => {
        const made = model(ring(r * 1e-3, w * 1e-3, h * 1e-3, (r + w) * 1.2e-3, 4e-3))
        const exact = mu0 * exactRoundGap(r * 1e-3, w * 1e-3, h * 1e-3, gap_mm * 1e-3)
        expect(Math.abs(gapPermeance(made, gap_mm * 1e-3) / exact - 1)).toBeLessThan(0.01)
      })
})

describe('planar sides of a rectangular post against finite elements', () => {
  const edge = (half_m: number, gap_m: number, reach: number) =>
    half_m / gap_m + (1 + Math.log(Math.PI / (2 * gap_m))) / Math.PI + reach

  it.each(named('gap_E_planeA').filter(([, c]) => number(c.geometry, 'centre_gap') > 0))(
    '%s (0.2 %)',
    (_, c) => {
      const core_per_H = 1 / number(byId('G2A-EA-g0').result, 'L_per_N2_per_m_depth')
      const reach = closedSide(number(c.geometry, 'window_height'), number(c.geometry, 'window_width')).reach
      const permeance =
        2 * mu0 * edge(number(c.geometry, 'post_width') / 2, number(c.geometry, 'centre_gap'), reach)
      const factor = permeance / (1 + permeance * core_per_H)
      expect(Math.abs(factor / number(c.result, 'L_per_N2_per_m_depth') - 1)).toBeLessThan(0.002)
    },
  )

  it.each(named('gap_E_planeB').filter(([id]) => id.includes('-m1-')))('%s (1 %)', (_, c) => {
    const [gap_m, height_m] = [number(c.geometry, 'centre_gap'), number(c.geometry, 'window_height')]
    // The case has a thin sheet of current that stops at the edge of the gap: the mean logarithmic distance of the sheet
    // to the gap is larger by that of the missing strip.
    const [a, b] = [gap_m / 2, height_m / 2]
    const strip = (a / b) * Math.log(b / a) * (2 / Math.PI)
    const reach = openSide(height_m, 1e-9).reach + strip
    const permeance = 2 * mu0 * edge(number(c.geometry, 'post_depth') / 2, gap_m, reach)
    expect(Math.abs(permeance / number(c.result, 'permeance_energy_per_m') - 1)).toBeLessThan(0.01)
  })
})

describe('rectangular post in three dimensions against finite elements', () => {
  // Goal 3 %; 1 % is twice the uncertainty of the reference.
  it.each(named('gap_E_3D'))('%s', (_, c) => {
    const d = number(c.geometry, 'post_depth')
    const core_per_H = 1 / (number(byId('G2A-EA-g0').result, 'L_per_N2_per_m_depth') * d)
    const factor = inductanceFactor(model(rectangularCase(c)), core_per_H, number(c.geometry, 'centre_gap'))
    expect(Math.abs(factor / number(c.result, 'L_per_N2') - 1)).toBeLessThan(0.01)
  })
})

describe('the same core from its drawing letters and permeability 2000 alone', () => {
  // Goal 3 %: the core's own reluctance now comes from the method of effective parameters, 6 % above the field solution.
  const core = coreGeometry({
    shape: 'E',
    dimensions: { A_m: 24.8e-3, B_m: 12.7e-3, C_m: 7.2e-3, D_m: 8.7e-3, E_m: 17.6e-3, F_m: 7.2e-3 },
  })
  it.each(named('gap_E_3D'))('%s', (_, c) => {
    if (!core.ok) throw new Error('refused')
    const core_per_H = core.value.effective.C1_per_m / (mu0 * 2000)
    const factor = inductanceFactor(
      model(gapGeometry(core.value)),
      core_per_H,
      number(c.geometry, 'centre_gap'),
    )
    expect(Math.abs(factor / number(c.result, 'L_per_N2') - 1)).toBeLessThan(0.03)
  })
})

describe('gapped cores of EFD20/10/7 on a data sheet', () => {
  const geometry = coreGeometry({
    shape: 'EFD',
    dimensions: {
      A_m: 20e-3,
      B_m: 10e-3,
      C_m: 6.65e-3,
      D_m: 7.7e-3,
      E_m: 15.4e-3,
      F_m: 8.9e-3,
      F2_m: 3.6e-3,
    },
    published: {
      effectiveArea_m2: 31e-6,
      effectiveLength_m: 47e-3,
      effectiveVolume_m3: 1460e-9,
      minimumArea_m2: 31e-6,
      source: 'data sheet of the size, 2008',
    },
  })
  it.each([
    [960, 63, 0.07],
    [280, 160, 0.12],
    [120, 315, 0.18],
  ])('%d µm: %d nH', (gap_um, AL_nH, tolerance) => {
    if (!geometry.ok) throw new Error('EFD20 refused')
    const factor = inductanceFactor(model(gapGeometry(geometry.value)), 1 / 1300e-9, gap_um * 1e-6)
    expect(Math.abs((factor * 1e9) / AL_nH - 1)).toBeLessThan(tolerance)
  })
})
