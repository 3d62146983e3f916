import { describe, expect, it } from 'vitest'
import {
  caseTemperature,
  insideRise,
  junctionTemperature,
  junctionToAmbient,
  mostPower,
  steadyTemperatures,
  surfaceLoss,
  surfaceResistance,
  surfaceRise,
  type ThermalNetwork,
  thermalResponse,
  warmNetwork,
} from './index.ts'

const one: ThermalNetwork = {
  nodes: [{ name: 'sink', capacity_J_per_K: 40 }],
  fixed: [{ name: 'room', temperature_C: 25 }],
  links: [{ from: 'sink', to: 'room', conductance_W_per_K: 0.1 }],
}

/** Two equal nodes, each to the room by g, joined by h: even mode g/C, odd mode (g + 2 h)/C. */
const two: ThermalNetwork = {
  nodes: [
    { name: 'a', capacity_J_per_K: 10 },
    { name: 'b', capacity_J_per_K: 10 },
  ],
  fixed: [{ name: 'room', temperature_C: 20 }],
  links: [
    { from: 'a', to: 'room', conductance_W_per_K: 0.05 },
    { from: 'b', to: 'room', conductance_W_per_K: 0.05 },
    { from: 'a', to: 'b', conductance_W_per_K: 0.2 },
  ],
}

describe('thermal network', () => {
  it('with one node is T = T0 + P R (1 - exp(-t/RC))', () => {
    const r = thermalResponse(one, { sink: 5 })
    if (!r.ok) throw new Error(r.message)
    expect(r.steady_C.sink).toBeCloseTo(75, 12)
    expect(r.timeConstants_s[0]).toBeCloseTo(400, 9)
    for (const t of [0, 100, 400, 3000]) expect(r.at(t)[0]).toBeCloseTo(25 + 50 * (1 - Math.exp(-t / 400)), 9)
    expect(r.settle(1)).toBeCloseTo(400 * Math.log(50), 3)
  })

  it('with two nodes is the sum of an even and an odd mode', () => {
    const r = thermalResponse(two, { a: 2 })
    if (!r.ok) throw new Error(r.message)
    const even = (t: number) => (2 / (2 * 0.05)) * (1 - Math.exp((-t * 0.05) / 10))
    const odd = (t: number) => (2 / (2 * 0.45)) * (1 - Math.exp((-t * 0.45) / 10))
    for (const t of [0, 10, 60, 500]) {
      expect(r.at(t)[0]).toBeCloseTo(20 + even(t) + odd(t), 9)
      expect(r.at(t)[1]).toBeCloseTo(20 + even(t) - odd(t), 9)
    }
    expect(r.timeConstants_s[0]).toBeCloseTo(200, 9)
    expect(r.timeConstants_s[1]).toBeCloseTo(10 / 0.45, 9)
    const t = r.settle(0.5)
    expect(Math.max(...Array.from(r.at(t), (x, k) => Math.abs(x - r.at(1e6)[k]!)))).toBeCloseTo(0.5, 4)
  })

  it('carries all heat to the room in the steady state, whatever the network', () => {
    const names = ['chip', 'sink', 'core', 'primary', 'secondary', 'rectifier']
    const network: ThermalNetwork = {
      nodes: names.map((name, k) => ({ name, capacity_J_per_K: 1 + k })),
      fixed: [
        { name: 'room', temperature_C: 30 },
        { name: 'wall', temperature_C: 22 },
      ],
      links: [
        { from: 'chip', to: 'sink', conductance_W_per_K: 0.5 },
        { from: 'sink', to: 'room', conductance_W_per_K: 0.08 },
        { from: 'primary', to: 'core', conductance_W_per_K: 0.3 },
        { from: 'secondary', to: 'primary', conductance_W_per_K: 0.2 },
        { from: 'core', to: 'room', conductance_W_per_K: 0.05 },
        { from: 'secondary', to: 'room', conductance_W_per_K: 0.02 },
        { from: 'rectifier', to: 'sink', conductance_W_per_K: 0.4 },
        { from: 'sink', to: 'wall', conductance_W_per_K: 0.01 },
      ],
    }
    const heat = { chip: 1.5, core: 0.4, primary: 0.6, secondary: 0.7, rectifier: 1.8 }
    const s = steadyTemperatures(network, heat)
    if (!s.ok) throw new Error(s.message)
    const t = s.temperature_C
    const out =
      0.08 * (t.sink! - 30) + 0.05 * (t.core! - 30) + 0.02 * (t.secondary! - 30) + 0.01 * (t.sink! - 22)
    expect(out).toBeCloseTo(1.5 + 0.4 + 0.6 + 0.7 + 1.8, 10)
    const r = thermalResponse(network, heat)
    if (!r.ok) throw new Error(r.message)
    names.forEach((name, k) => {
      expect(r.at(1e5)[k]).toBeCloseTo(t[name]!, 8)
    })
    const half = r.at(50)
    const slope = r.at(50.001)
    // energy balance while warming: sum of C dT/dt = heat in - heat out
    let stored = 0
    names.forEach((_, k) => {
      stored += ((1 + k) * (slope[k]! - half[k]!)) / 0.001
    })
    const leaving =
      0.08 * (half[1]! - 30) + 0.05 * (half[2]! - 30) + 0.02 * (half[4]! - 30) + 0.01 * (half[1]! - 22)
    expect(stored).toBeCloseTo(5 - leaving, 2)
  })

  it('fails by name', () => {
    expect(steadyTemperatures({ ...two, links: two.links.slice(1, 2) }, {})).toMatchObject({
      ok: false,
      code: 'floating',
      message: expect.stringContaining('a has no path'),
    })
    expect(steadyTemperatures(one, { nothing: 1 })).toMatchObject({ ok: false, code: 'unknown-name' })
    expect(steadyTemperatures(one, { sink: Number.NaN })).toMatchObject({ ok: false, code: 'bad-value' })
    expect(thermalResponse({ ...one, nodes: [{ name: 'sink', capacity_J_per_K: 0 }] }, {})).toMatchObject({
      ok: false,
      code: 'bad-value',
    })
    expect(
      steadyTemperatures({ ...one, links: [{ from: 'sink', to: 'moon', conductance_W_per_K: 1 }] }, {}),
    ).toMatchObject({ ok: false, code: 'unknown-name' })
    expect(steadyTemperatures({ ...one, nodes: [...one.nodes, ...one.nodes] }, {})).toMatchObject({
      ok: false,
      code: 'duplicate-name',
    })
  })
})

describe('junction', () => {
  const cooling = {
    junctionToCase_K_per_W: 2,
    junctionToAmbient_K_per_W: 62,
    heatsink: { toAmbient_K_per_W: 12 },
    pad: { resistance_K_per_W: 1 },
  }
  it('adds case, pad and heatsink, or stands in free air', () => {
    expect(junctionToAmbient(cooling)).toBe(15)
    expect(junctionToAmbient({ ...cooling, pad: null })).toBe(14.5)
    expect(junctionToAmbient({ ...cooling, heatsink: null })).toBe(62)
    const hot = junctionTemperature(40, 3, 15)
    expect(hot).toBe(85)
    expect(caseTemperature(hot, 3, 2)).toBe(79)
    expect(mostPower(85, 40, 15)).toBe(3)
    expect(mostPower(40, 50, 15)).toBe(0)
  })
})

describe('transformer surface', () => {
  it('rises 31 K for 0.0396 W/cm2 by the handbook formula (McLyman, from memory) and turns round', () => {
    expect(surfaceRise(2.1, 53e-4)).toBeCloseTo(31.3, 0)
    expect(surfaceLoss(surfaceRise(2.3, 3e-3), 3e-3)).toBeCloseTo(2.3, 9)
    expect(surfaceResistance(2, 3e-3) * 2).toBeCloseTo(surfaceRise(2, 3e-3), 12)
  })
})

describe('assembly', () => {
  const assembly = {
    parts: [
      {
        name: 'chip',
        capacity_J_per_K: 0.5,
        toAir_K_per_W: null,
        paths: [{ to: 'sink', resistance_K_per_W: 3 }],
      },
      { name: 'sink', capacity_J_per_K: 20, toAir_K_per_W: 12, paths: [] },
      { name: 'transformer', capacity_J_per_K: 30, toAir_K_per_W: 20, paths: [] },
    ],
    ambient_C: 25,
    cooling: 'open' as const,
    caseSurface_m2: 0.03,
    caseCapacity_J_per_K: 100,
  }
  it('on the bench is a chain of resistances, in a case adds the air inside', () => {
    const open = steadyTemperatures(warmNetwork(assembly), { chip: 2, transformer: 1 })
    if (!open.ok) throw new Error(open.message)
    expect(open.temperature_C.chip).toBeCloseTo(25 + 2 * 15, 9)
    const closed = steadyTemperatures(warmNetwork({ ...assembly, cooling: 'case-closed' }), {
      chip: 2,
      transformer: 1,
    })
    if (!closed.ok) throw new Error(closed.message)
    const inside = 25 + insideRise('case-closed', 3, 0.03)
    expect(closed.temperature_C['air inside']).toBeCloseTo(inside, 9)
    expect(closed.temperature_C.chip).toBeCloseTo(inside + 2 * (3 + 12 * 1.3), 9)
    expect(insideRise('fan', 3, 0.03)).toBe(0)
    expect(insideRise('case-vented', 3, 0.03)).toBeCloseTo(5, 12)
  })

  it('has settled by a known time, not yet after five minutes in a case', () => {
    const r = thermalResponse(warmNetwork({ ...assembly, cooling: 'case-closed' }), {
      chip: 2,
      transformer: 1,
    })
    if (!r.ok) throw new Error(r.message)
    expect(r.settle(1)).toBeGreaterThan(300)
    const k = r.names.indexOf('chip')
    expect(r.at(300)[k]).toBeLessThan(r.steady_C.chip! - 1)
  })
})
