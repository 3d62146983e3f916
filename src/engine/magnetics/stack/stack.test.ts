import { describe, expect, it } from 'vitest'
import { enamelled, sampleStack } from '../../../../test/support/sample-stack.ts'
import {
  insulationBetween,
  layerCapacitances,
  layerFields,
  layOut,
  leakageClosedForm,
  recommendStack,
  resistanceClosedForm,
  type StackInput,
  type StackLayout,
  selfCapacitance_F,
  turnsPerLayer,
  windingCapacitance_F,
  windingCopper,
  wirePositions,
} from './index.ts'

const laid = (input: StackInput): StackLayout => {
  const result = layOut(input)
  if (!result.ok) throw new Error(result.errors[0]!.message)
  return result.layout
}

describe('layout of a stack', () => {
  it('lays every turn once, outward, without overlap', () => {
    const layout = laid(sampleStack({ splitPrimary: true }))
    for (const [name, turns] of [
      ['primary', 60],
      ['secondary', 8],
      ['bias', 9],
    ] as const)
      expect(layout.layers.filter((l) => l.winding === name).reduce((n, l) => n + l.turns, 0)).toBe(turns)
    const heights = [...layout.layers, ...layout.tapes].sort((p, q) => p.bottom_m - q.bottom_m)
    heights.forEach((item, i) => {
      if (i > 0) expect(item.bottom_m).toBeCloseTo(heights[i - 1]!.top_m, 12)
    })
    expect(layout.build_m).toBeCloseTo(heights.at(-1)!.top_m, 12)
  })

  it('fills 40 of 41 places of a layer, one being lost to the helix', () => {
    // 15.4 mm over 0.367 mm is 41.96 places. Common practice, no source.
    expect(turnsPerLayer(15.4e-3, 0.367e-3)).toBe(40)
    const layout = laid(sampleStack())
    expect(layout.sections[0]).toMatchObject({ winding: 'primary', layers: 2, turnsPerLayer: 40 })
  })

  it('spreads few turns over the width and keeps wires in hand together', () => {
    const layout = laid(sampleStack())
    const layer = layout.layers.find((l) => l.winding === 'secondary')!
    const positions = wirePositions(layout, layer)
    expect(positions.length).toBe(2 * 8 * 3)
    expect(positions[3]! - positions[1]!).toBeCloseTo(0.566e-3, 9) // touching
    expect(positions[7]! - positions[1]!).toBeCloseTo(layer.pitch_m, 12)
    expect(layer.pitch_m * 8 + 3 * 0.566e-3).toBeCloseTo(15.4e-3, 12)
    expect(positions.filter((_, i) => i % 2).reduce((sum, z) => sum + z, 0)).toBeCloseTo(0, 12)
  })

  it('widens the layer by both margins when triple-insulated wire replaces them', () => {
    const margins = laid(sampleStack({ margin_m: 3e-3 }))
    const without = laid(sampleStack())
    expect(without.availableWidth_m - margins.availableWidth_m).toBeCloseTo(6e-3, 12)
    expect(margins.sections[0]!.layers).toBeGreaterThan(without.sections[0]!.layers)
  })

  it('takes turn length from the barrel, round corners with the height', () => {
    const layout = laid(sampleStack())
    const first = layout.layers[0]!
    // Hand sum: four sides of 9.2 mm and a circle of half a wire's height.
    expect(first.meanTurn_m).toBeCloseTo(4 * 9.2e-3 + Math.PI * 0.367e-3, 12)
    const copper = windingCopper(layout, 'primary', 20)!
    expect(copper.cutLength_m - copper.length_m).toBeCloseTo(0.16, 12)
    // 0.315 mm: 17.241 nΩ·m over 0.0779 mm² is 0.2212 Ω/m.
    expect(copper.dcResistance_ohm / copper.cutLength_m).toBeCloseTo(0.2212, 4)
    expect(windingCopper(layout, 'primary', 100)!.dcResistance_ohm / copper.dcResistance_ohm).toBeCloseTo(
      1.3144,
      4,
    )
    expect(windingCopper(layout, 'tertiary', 20)).toBeUndefined()
  })

  it('says fits, tight and does not fit by the sum of heights', () => {
    const at = (height_m: number): StackLayout =>
      laid(sampleStack({ former: { ...sampleStack().former, height_m } }))
    const { build_m } = at(4.5e-3)
    expect(at(build_m / 0.8).fit).toBe('fits')
    expect(at(build_m / 0.9).fit).toBe('tight')
    expect(at(build_m / 1.05).fit).toBe('does-not-fit')
  })
})

describe('impossible stacks', () => {
  const base = sampleStack()
  it.each([
    ['tape_m', { ...base, tape_m: -60e-6 }, 'tape thickness is -0.06 mm'],
    [
      'core.height_m',
      { ...base, core: { ...base.core, height_m: 15e-3 } },
      'core window is 15 mm high, smaller than the former',
    ],
    ['core.width_m', { ...base, core: { ...base.core, width_m: 0.5e-3 } }, 'core window is 0.5 mm wide'],
    ['margin_m', { ...base, margin_m: 8e-3 }, 'two margins of 8 mm leave no width'],
    [
      'wires.primary',
      { ...base, wires: { ...base.wires, primary: { wire: enamelled(4.8), inHand: 1 } } },
      'primary wire is',
    ],
    [
      'wires.secondary',
      { ...base, wires: { ...base.wires, secondary: { wire: enamelled(1), inHand: 20 } } },
      'one turn of secondary is 21.88 mm wide',
    ],
    [
      'wires.bias',
      { ...base, wires: { primary: base.wires.primary!, secondary: base.wires.secondary! } },
      'no wire is given for winding bias',
    ],
    [
      'former.width_m',
      { ...base, former: { ...base.former, width_m: 0 } },
      'winding width of the former is 0 mm',
    ],
    ['tapeLayersInside', { ...base, tapeLayersInside: 0.5 }, 'tape inside a winding is 0.5 layers'],
    [
      'stack.0.layers',
      { ...base, stack: [{ kind: 'tape', layers: -1 } as const] },
      'tape at place 1 has -1 layers',
    ],
    [
      'stack.0.thickness_m',
      { ...base, stack: [{ kind: 'shield', thickness_m: 0, pin: 1 } as const] },
      'shield is 0 mm',
    ],
  ])('%s is refused by name', (field, input, sentence) => {
    const result = layOut(input)
    expect(result.ok).toBe(false)
    if (result.ok) return
    const error = result.errors.find((item) => item.field === field)!
    expect(error.message).toContain(sentence)
    expect(Number.isFinite(error.limit)).toBe(true)
  })
})

describe('insulation and capacitance', () => {
  it('counts tape, margins and the way over the core', () => {
    const pairs = insulationBetween(laid(sampleStack({ margin_m: 3e-3 })))
    const barrier = pairs.find((p) => p.from === 'primary' && p.to === 'secondary')!
    expect(barrier.tapeLayers).toBe(3)
    expect(barrier.surface_m).toBeCloseTo(6e-3 + 3 * 60e-6, 9)
    expect(barrier.throughCore_m).toBeCloseTo(2 * (3e-3 + 0.8e-3), 9)
    expect(barrier.reinforcedWire).toBe(false)
  })

  it('is a plate capacitor between foils', () => {
    const foil = {
      id: 'foil',
      name: 'foil',
      kind: 'wire' as const,
      construction: 'foil' as const,
      temperature_C: 155,
      thickness_m: 0.1e-3,
      width_m: 12e-3,
      insulation_m: 50e-6,
    }
    const base = sampleStack()
    const layout = laid({
      ...base,
      stack: base.stack.slice(0, 3).map((e) => (e.kind === 'winding' ? { ...e, turns: 1 } : e)),
      wires: { primary: { wire: foil, inHand: 1 }, secondary: { wire: foil, inHand: 1 } },
    })
    const [pair] = layerCapacitances(layout)
    const air_m = 180e-6 / 3.3 + 100e-6 / 3.5
    const turn_m = 4 * 9.2e-3 + 2 * Math.PI * (0.15e-3 + 0.09e-3)
    const plate_F = (8.854e-12 * 12e-3 * turn_m) / air_m
    expect(pair!.static_F / plate_F).toBeCloseTo(1, 2)
  })

  it('falls from to-and-fro winding to one-sided winding, and with tape', () => {
    const layout = laid(sampleStack())
    const zigzag = { enamelPermittivity: 3.5, tapePermittivity: 3.3, winding: 'Z' as const }
    expect(selfCapacitance_F(layout, 'primary', zigzag)).toBeLessThan(selfCapacitance_F(layout, 'primary'))
    const thick = laid(sampleStack({ tape_m: 120e-6 }))
    expect(selfCapacitance_F(thick, 'primary')).toBeLessThan(selfCapacitance_F(layout, 'primary'))
  })

  it('puts a shield between what it separates', () => {
    const base = sampleStack()
    const at = base.stack.findIndex((e) => e.kind === 'winding' && e.winding === 'secondary')
    const stack = base.stack.toSpliced(
      at,
      0,
      { kind: 'shield', thickness_m: 50e-6, pin: 2 },
      { kind: 'tape', layers: 1 },
    )
    expect(windingCapacitance_F(laid(base), 'primary', 'secondary')).toBeGreaterThan(5e-12)
    expect(windingCapacitance_F(laid({ ...base, stack }), 'primary', 'secondary')).toBe(0)
    expect(insulationBetween(laid({ ...base, stack }))[0]!.shielded).toBe(true)
  })
})

describe('recommended order', () => {
  const common = {
    primary: { name: 'primary', turns: 61, pins: [1, 2] },
    secondary: { name: 'secondary', turns: 8, pins: [10, 9] },
    bias: { name: 'bias', turns: 9, pins: [4, 5] },
    splitPin: 3,
    barrierTapeLayers: 3,
    outerTapeLayers: 2,
  } as const
  it('splits the primary round the secondary, starts first', () => {
    const stack = recommendStack({ ...common, splitPrimary: true, biasPlace: 'after' })
    const wound = stack.filter((e) => e.kind === 'winding')
    expect(wound.map((e) => [e.winding, e.turns, e.startPin, e.finishPin])).toEqual([
      ['primary', 31, 1, 3],
      ['secondary', 8, 10, 9],
      ['primary', 30, 3, 2],
      ['bias', 9, 4, 5],
    ])
  })
  it('keeps the barrier between primary side and secondary side', () => {
    for (const splitPrimary of [false, true])
      for (const biasPlace of ['between', 'after'] as const) {
        const layout = laid(sampleStack({ stack: recommendStack({ ...common, splitPrimary, biasPlace }) }))
        for (const pair of insulationBetween(layout))
          if (pair.from === 'secondary' || pair.to === 'secondary')
            expect(pair.tapeLayers).toBeGreaterThanOrEqual(3)
      }
  })
})

describe('closed forms', () => {
  it('is the textbook formula when windings fill the window', () => {
    // 2E = μ0 l/h (t1/3 + s + t2/3) for equal turn lengths: a thin pair of foils on a large barrel.
    const foil = {
      id: 'foil',
      name: 'foil',
      kind: 'wire' as const,
      construction: 'foil' as const,
      temperature_C: 155,
      thickness_m: 0.1e-3,
      width_m: 15.39e-3,
      insulation_m: 1e-6,
    }
    const base = sampleStack()
    const layout = laid({
      ...base,
      stack: base.stack.slice(0, 3).map((e) => (e.kind === 'winding' ? { ...e, turns: 1 } : e)),
      wires: { primary: { wire: foil, inHand: 1 }, secondary: { wire: foil, inHand: 1 } },
      core: {
        ...base.core,
        height_m: 15.4e-3,
        post: { section: 'rectangular', width_m: 88e-3, depth_m: 88e-3 },
      },
      former: {
        ...base.former,
        flange_m: 0,
        barrel: { section: 'rectangular', width_m: 90e-3, depth_m: 90e-3 },
      },
    })
    const textbook = ((4e-7 * Math.PI * 4 * 90e-3) / 15.4e-3) * (0.2e-3 / 3 + 3 * 60e-6 + 1e-6)
    expect(leakageClosedForm(layout, 'primary', 'secondary')!.leakage_H / textbook).toBeCloseTo(1, 1.9)
  })

  it('shrinks to 0.3 to 0.6 when the primary is split', () => {
    const simple = leakageClosedForm(laid(sampleStack()), 'primary', 'secondary')!
    const split = leakageClosedForm(laid(sampleStack({ splitPrimary: true })), 'primary', 'secondary')!
    const ratio = split.leakage_H / simple.leakage_H
    // A quarter by the one-dimensional law of equal gaps, about a half by common practice.
    expect(ratio).toBeGreaterThan(0.3)
    expect(ratio).toBeLessThan(0.6)
  })

  it('is the same seen from either side, referred by turns squared', () => {
    const layout = laid(sampleStack())
    const fromPrimary = leakageClosedForm(layout, 'primary', 'secondary')!.leakage_H
    const fromSecondary = leakageClosedForm(layout, 'secondary', 'primary')!.leakage_H
    expect(fromPrimary / fromSecondary).toBeCloseTo((60 / 8) ** 2, 6)
    expect(leakageClosedForm(layout, 'primary', 'primary')).toBeUndefined()
    expect(leakageClosedForm(layout, 'primary', 'tertiary')).toBeUndefined()
  })

  it('falls to dc resistance at low frequency and rises with it', () => {
    const layout = laid(sampleStack())
    const fields = layerFields(layout, { post: 0.9, outerLegs: 0 })
    const dc_ohm = windingCopper(layout, 'primary', 60)!.dcResistance_ohm
    const at = (f: number): number => resistanceClosedForm(fields, f, 60).resistance_ohm[0]!
    expect(at(1) / dc_ohm).toBeCloseTo(1, 6)
    expect(at(50e3)).toBeGreaterThan(at(20e3))
    expect(at(500e3)).toBeGreaterThan(at(50e3))
  })
})
