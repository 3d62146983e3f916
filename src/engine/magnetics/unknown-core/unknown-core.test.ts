import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coreGeometry, effectiveParameters } from '../core/index.ts'
import { coreReluctance, gapForFactor, gapGeometry, gapModel, inductanceFactor, mu0 } from '../gap/index.ts'
import { fitSteinmetz, saturationCurve } from '../material/index.ts'
import {
  type CoreReadings,
  gradeOfHalves,
  identifyCore,
  identifyRing,
  judgeGap,
  readWinding,
  unknownFerrite,
} from './index.ts'

const dimensions = { A_m: 25e-3, B_m: 12.5e-3, C_m: 7.25e-3, D_m: 8.9e-3, E_m: 18e-3, F_m: 7.25e-3 }
const accuracy = { inductance: 0.01, resistance: 0.01, calliper_m: 0.05e-3 }
const C1 = effectiveParameters('E', dimensions).C1_per_m
const core = coreGeometry({ shape: 'E', dimensions })
if (!core.ok) throw new Error('refused')
const made = (place: 'post' | 'all-legs') => {
  const model = gapModel(gapGeometry(core.value), place)
  if (!model.ok) throw new Error('refused')
  return model.value
}
const post = made('post')
const legs = made('all-legs')

const reading = (
  mu: number,
  hidden_m: number,
  turns: number,
  more?: Partial<CoreReadings>,
): CoreReadings => ({
  shape: 'E',
  dimensions,
  turns,
  ungapped_H: inductanceFactor(post, coreReluctance(C1, mu), hidden_m) * turns ** 2,
  accuracy,
  ...more,
})
const identify = (r: CoreReadings) => {
  const found = identifyCore(r)
  if (!found.ok) throw new Error(found.problems[0]?.message)
  return found.value
}

describe('unknown core of two halves', () => {
  it('AL is L over N² and permeability follows', () => {
    const found = identify(reading(2000, 0, 10))
    expect(found.factor_H.value).toBeCloseTo((mu0 * 2000) / C1, 15)
    expect(found.permeability.value).toBeCloseTo(2000, 6)
    expect(found.permeability.uncertainty).toBeGreaterThan(accuracy.inductance)
    expect(found.grade).toMatchObject({ likely: 'power-ferrite', usable: true })
    expect(found.flags).toEqual([])
  })

  it('brackets a hidden gap whatever the power ferrite (property)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1300, max: 3000, noNaN: true }),
        fc.double({ min: 0.1e-3, max: 1.5e-3, noNaN: true }),
        (mu, gap_m) => {
          const found = identify(reading(mu, gap_m, 20))
          expect(found.hiddenGap_m.minimum).toBeLessThanOrEqual(gap_m)
          expect(found.hiddenGap_m.maximum).toBeGreaterThanOrEqual(gap_m)
          expect(found.grade.likely).toBe('gapped-power-ferrite')
          expect(found.flags.map((f) => f.code)).toContain('hidden-gap')
        },
      ),
      { seed: 6 },
    )
  })

  it('refuses suppression ferrite as a main core and suspects a shorted turn', () => {
    expect(identify(reading(7000, 0, 10)).grade).toMatchObject({
      likely: 'high-permeability-ferrite',
      usable: false,
    })
    const shorted = identify({ ...reading(2000, 0, 20), ungapped_H: 2e-6 })
    expect(shorted.grade.usable).toBe(false)
    expect(shorted.flags.map((f) => f.code)).toContain('shorted-turn')
    expect(gradeOfHalves(100).likely).toBe('gapped-power-ferrite')
  })

  const gap_m = 0.2e-3
  const withGap = (mu: number, trueTurns: number, claimed: number) => ({
    ...reading(mu, 0, trueTurns),
    turns: claimed,
    gapped: {
      inductance_H: inductanceFactor(legs, coreReluctance(C1, mu), gap_m) * trueTurns ** 2,
      place: 'all-legs' as const,
      gap_m,
    },
  })

  it('counts the turns from two inductances, whatever the ferrite', () => {
    for (const mu of [1500, 2300, 5000]) {
      const found = identify(withGap(mu, 40, 40))
      expect(found.turns?.value).toBeCloseTo(40, 6)
      expect(found.flags.map((f) => f.code)).not.toContain('wrong-turns')
    }
  })

  it('flags 40 turns counted as 44', () => {
    expect(identify(withGap(2000, 40, 44)).flags.map((f) => f.code)).toContain('wrong-turns')
  })

  it('flags swapped readings', () => {
    const r = withGap(2000, 40, 40)
    const swapped = identify({
      ...r,
      ungapped_H: r.gapped.inductance_H,
      gapped: { ...r.gapped, inductance_H: r.ungapped_H },
    })
    expect(swapped.turns).toBeNull()
    expect(swapped.flags.map((f) => f.code)).toContain('gap-order')
  })

  it('names what is wrong with a reading', () => {
    const r = reading(2000, 0, 10)
    expect(identifyCore({ ...r, turns: 0 })).toMatchObject({ ok: false, problems: [{ path: 'turns' }] })
    expect(identifyCore({ ...r, ungapped_H: -1 })).toMatchObject({
      ok: false,
      problems: [{ path: 'ungapped_H' }],
    })
    expect(identifyCore({ ...r, dimensions: { ...dimensions, F_m: 19e-3 } })).toMatchObject({
      ok: false,
      problems: [{ path: 'dimensions.F_m' }],
    })
    expect(identifyCore({ ...r, gapped: { inductance_H: 1e-4, place: 'post', gap_m: 0 } })).toMatchObject({
      ok: false,
      problems: [{ path: 'gapped.gap_m' }],
    })
  })
})

describe('unknown ring', () => {
  const size = { outer_m: 12.7e-3, inner_m: 7.62e-3, height_m: 4.826e-3 }
  it('iron powder is refused as a main core (100 turns, 320 µH: permeability 75 in the tables)', () => {
    const found = identifyRing(size, 100, 320e-6, accuracy)
    if (!found.ok) throw new Error('refused')
    expect(found.value.grade).toMatchObject({ likely: 'powder', usable: false })
    const { value, uncertainty } = found.value.permeability
    expect(Math.abs(value - 75)).toBeLessThan(75 * uncertainty)
  })
  it('so are high-permeability and power ferrite', () => {
    expect(identifyRing(size, 10, 300e-6, accuracy)).toMatchObject({
      ok: true,
      value: { grade: { likely: 'high-permeability-ferrite', usable: false } },
    })
    expect(identifyRing(size, 10, 100e-6, accuracy)).toMatchObject({
      ok: true,
      value: { grade: { usable: false } },
    })
    expect(identifyRing(size, 0, 1e-6, accuracy)).toMatchObject({ ok: false })
  })
})

describe('verdict on a measured gap, reference supply of 910 µH with 63 turns', () => {
  const R = coreReluctance(57.5e-3 / 52e-6, 2000)
  const gapFor = (model: typeof post, L: number) => {
    const gap = gapForFactor(model, R, L / 63 ** 2)
    if (!gap.ok) throw new Error('refused')
    return gap.value
  }
  const verdict = (model: typeof post, measured_H: number) => {
    const planned = { inductance_H: 910e-6, gap_m: gapFor(model, 910e-6) }
    const judged = judgeGap(model, R, 63, planned, measured_H, 0.02)
    if (!judged.ok) throw new Error('refused')
    return judged.value
  }

  it('910 µH is right', () =>
    expect(verdict(post, 910e-6)).toMatchObject({ code: 'right', doNotPower: false }))
  it('1650 µH: about half the gap, do not power', () => {
    const v = verdict(post, 1650e-6)
    expect(v).toMatchObject({ code: 'half', doNotPower: true })
    expect(v.message).toContain('about half the gap')
    expect(v.message).toContain('do not power')
  })
  it('480 µH with spacers: full value', () => {
    const v = verdict(legs, 480e-6)
    expect(v).toMatchObject({ code: 'double', doNotPower: false })
    expect(v.message).toContain('spacers are full value')
  })
  it('ten times the inductance: no gap', () =>
    expect(verdict(post, 9100e-6)).toMatchObject({ code: 'none', doNotPower: true }))
  it('carries the spread of the meter', () => {
    const v = verdict(post, 910e-6)
    expect(v.gap_m.minimum).toBeLessThan(v.gap_m.typical)
    expect(v.gap_m.maximum).toBeGreaterThan(v.gap_m.typical)
  })
  it('refuses nonsense', () => {
    expect(judgeGap(post, R, 63, { inductance_H: 910e-6, gap_m: 0.3e-3 }, 0, 0.02)).toMatchObject({
      ok: false,
    })
    expect(judgeGap(post, R, 63, { inductance_H: 910e-6, gap_m: 0.3e-3 }, 1e-6, 0.02)).toMatchObject({
      ok: false,
    })
  })
})

describe('finished winding', () => {
  const good = {
    primaryTurns: 63,
    secondaryTurns: 8,
    primary_H: 910e-6,
    secondary_H: 910e-6 * (8 / 63) ** 2,
    shorted_H: 18e-6,
    accuracy,
  }
  const read = (r: Parameters<typeof readWinding>[0]) => {
    const found = readWinding(r)
    if (!found.ok) throw new Error(found.problems[0]?.message)
    return found.value
  }
  it('gives leakage and ratio', () => {
    const found = read(good)
    expect(found.leakageFraction?.value).toBeCloseTo(18 / 910, 9)
    expect(found.turnsRatio?.value).toBeCloseTo(63 / 8, 9)
    expect(found.secondaryTurns).toBe(8)
    expect(found.flags).toEqual([])
  })
  it('flags a secondary one turn out', () => {
    const found = read({ ...good, secondary_H: 910e-6 * (7 / 63) ** 2 })
    expect(found.secondaryTurns).toBe(7)
    expect(found.flags.map((f) => f.code)).toEqual(['turns-ratio'])
  })
  it('flags leakage above 5 % and a short that is none', () => {
    expect(read({ ...good, shorted_H: 60e-6 }).flags.map((f) => f.code)).toEqual(['leakage-high'])
    expect(read({ ...good, shorted_H: 700e-6 }).flags.map((f) => f.code)).toEqual(['not-shorted'])
  })
  it('flags a resistance that is too low or too high', () => {
    const at = (measured_ohm: number) =>
      read({
        ...good,
        resistances: [{ winding: 'primary', measured_ohm, expected_ohm: 1, turns: 63 }],
      }).flags.map((f) => f.code)
    expect(at(1.02)).toEqual([])
    expect(at(0.8)).toEqual(['shorted-turn'])
    expect(at(1.3)).toEqual(['resistance'])
  })
  it('refuses a shorted inductance above the open one', () =>
    expect(readWinding({ ...good, shorted_H: 1 })).toMatchObject({
      ok: false,
      problems: [{ path: 'shorted_H' }],
    }))
})

describe('figures for an unknown grade', () => {
  it('can be fitted and drawn as a curve', () => {
    expect(fitSteinmetz(unknownFerrite.lossPoints).ok).toBe(true)
    expect(saturationCurve(unknownFerrite).ok).toBe(true)
  })
})
