import { describe, expect, it } from 'vitest'
import type { Toroid, Wire } from '../../parts/part.ts'
import {
  choke,
  chokeInductance,
  permeabilityLeft,
  ringGeometry,
  ringRise,
  turnsForInductance,
  windRing,
} from './index.ts'

const ring: Toroid = {
  id: 'ring-13',
  kind: 'toroid',
  name: 'Powder ring 12.7 mm, permeability 75',
  outer_m: 12.7e-3,
  inner_m: 7.62e-3,
  height_m: 4.826e-3,
  permeability: 75,
  inductanceFactor_H: 32e-9,
  inductanceFactorTolerance: 0.1,
  biasCurve: [
    { field_A_per_m: 0, fraction: 1 },
    { field_A_per_m: 2000, fraction: 0.8 },
    { field_A_per_m: 4000, fraction: 0.55 },
    { field_A_per_m: 8000, fraction: 0.3 },
  ],
  lossPoints: [
    { frequency_Hz: 5e4, fluxPeak_T: 0.05, temperature_C: 25, loss_W_per_m3: 4e5 },
    { frequency_Hz: 1e5, fluxPeak_T: 0.05, temperature_C: 25, loss_W_per_m3: 1e6 },
    { frequency_Hz: 1e5, fluxPeak_T: 0.02, temperature_C: 25, loss_W_per_m3: 1.6e5 },
  ],
}
const wire: Wire = {
  id: 'wire-0.8',
  kind: 'wire',
  name: 'Enamelled 0.8 mm',
  construction: 'enamelled',
  bare_m: 0.8e-3,
  grade: 1,
  overall_m: 0.855e-3,
  temperature_C: 155,
}
const made = ringGeometry(ring)
if (!made.ok) throw new Error('refused')
const geometry = made.value

describe('permeability under bias', () => {
  it('is straight between points and falls as 1/H² beyond them', () => {
    expect(permeabilityLeft(ring.biasCurve, 0)).toBe(1)
    expect(permeabilityLeft(ring.biasCurve, 3000)).toBeCloseTo(0.675, 12)
    expect(permeabilityLeft(ring.biasCurve, -2000)).toBeCloseTo(0.8, 12)
    expect(permeabilityLeft(ring.biasCurve, 16000)).toBeCloseTo(0.075, 12)
  })
})

describe('turns for an inductance at current', () => {
  it('are the fewest that hold', () => {
    const turns = turnsForInductance(ring, geometry, 5e-6, 2)
    if (!turns.ok) throw new Error('refused')
    const least = { ...ring, inductanceFactor_H: ring.inductanceFactor_H * 0.9 }
    expect(chokeInductance(least, geometry, turns.value, 2)).toBeGreaterThanOrEqual(5e-6)
    expect(chokeInductance(least, geometry, turns.value - 1, 2)).toBeLessThan(5e-6)
  })
  it('are refused where none holds, with the most there is', () => {
    const none = turnsForInductance(ring, geometry, 100e-6, 10)
    expect(none.ok).toBe(false)
    if (!none.ok) expect(none.problems[0]?.message).toMatch(/the most it holds is .* µH, with \d+ turns/)
    expect(turnsForInductance(ring, geometry, 0, 1)).toMatchObject({ ok: false })
    expect(turnsForInductance(ring, geometry, 1e-6, -1)).toMatchObject({ ok: false })
  })
})

describe('winding through the hole', () => {
  it('first layer: as many wires as stand round the circle of their centres', () => {
    // Centres on a circle of 7.62 - 0.855 = 6.765 mm: pi / asin(0.855 / 6.765) = 24.8.
    const wound = windRing(ring, wire, 24, 1)
    expect(wound).toMatchObject({ ok: true, value: { layers: [24] } })
    expect(windRing(ring, wire, 25, 1)).toMatchObject({ ok: true, value: { layers: [24, 1] } })
  })
  it('length of one turn: round the section at half a wire off', () => {
    const wound = windRing(ring, wire, 1, 1)
    expect(wound.ok && wound.value.length_m).toBeCloseTo(5.08e-3 + 2 * 4.826e-3 + 4 * 0.855e-3, 9)
  })
  it('two in hand take twice the room at the same length a wire', () => {
    const one = windRing(ring, wire, 20, 1)
    const two = windRing(ring, wire, 10, 2)
    if (!one.ok || !two.ok) throw new Error('refused')
    expect(two.value.layers).toEqual(one.value.layers)
    expect(two.value.length_m).toBeCloseTo(one.value.length_m / 2, 12)
  })
  it('refuses a full hole with the turns that go in', () => {
    const full = windRing(ring, wire, 200, 1)
    expect(full.ok).toBe(false)
    if (!full.ok) expect(full.problems[0]?.message).toMatch(/turns fit$/)
    expect(windRing(ring, wire, 0, 1)).toMatchObject({ ok: false, problems: [{ path: 'turns' }] })
    expect(windRing(ring, wire, 5, 1.5)).toMatchObject({ ok: false, problems: [{ path: 'inHand' }] })
  })
})

describe('choke as wound', () => {
  const duty = { average_A: 2, ripple_App: 0.4, frequency_Hz: 1e5, riseFraction: 0.4, ambient_C: 40 }
  it('settles, and copper loss is the resistance at its own temperature', () => {
    const c = choke(ring, wire, 15, 1, duty)
    if (!c.ok) throw new Error(c.problems[0]?.message)
    expect(c.value.inductance_H).toBeLessThan(c.value.inductanceCold_H)
    expect(c.value.temperature_C).toBeCloseTo(40 + c.value.rise_K, 6)
    expect(c.value.copper_W).toBeCloseTo((4 + 0.16 / 12) * c.value.resistance_ohm, 9)
    expect(c.value.rise_K).toBeCloseTo(ringRise(c.value.copper_W + c.value.core_W, c.value.surface_m2), 2)
    // Flux swing from Faraday's law on the inductance at current.
    expect(c.value.swing_Tpp).toBeCloseTo((c.value.inductance_H * 0.4) / (15 * geometry.area_m2), 12)
  })
  it('rise of 1 W on 10 cm²: 46 K', () => expect(ringRise(1, 10e-4)).toBeCloseTo(46.3, 1))
  it('refuses a current that makes it run away', () => {
    expect(choke(ring, wire, 15, 1, { ...duty, average_A: 300 })).toMatchObject({
      ok: false,
      problems: [{ path: 'average_A' }],
    })
  })
  it('refuses an impossible ring', () => {
    const bad = choke({ ...ring, inner_m: 13e-3 }, wire, 5, 1, duty)
    expect(bad).toMatchObject({ ok: false, problems: [{ path: 'inner_m' }] })
  })
})
