import { describe, expect, it } from 'vitest'
import type { Wire } from '../../parts/part.ts'
import {
  copperArea_m2,
  copperResistanceRatio,
  dcResistance_ohm_per_m,
  enamelledOverall_m,
  parseWireSize,
  roundWireResponse,
  sheetProximityFactor,
  sheetSkinFactor,
} from './index.ts'

describe('wire sizes', () => {
  it('gives one area for a size written in millimetres, AWG or SWG', () => {
    const sizes = ['0.4049', '0,4049 mm', 'AWG 26', '26awg'].map(parseWireSize)
    for (const size of sizes) {
      expect(size.ok).toBe(true)
      if (size.ok) expect(size.bare_m).toBeCloseTo(0.4049e-3, 7)
    }
    const swg = parseWireSize('swg 27')
    expect(swg.ok && swg.bare_m).toBeCloseTo(0.4166e-3, 7)
  })

  it('refuses what is not a size with a sentence', () => {
    for (const text of ['thin', '0', '25 mm', 'AWG 99', 'SWG 3']) {
      const size = parseWireSize(text)
      expect(size.ok).toBe(false)
      if (!size.ok) expect(size.message).toContain(text.split(' ').at(-1)!.replace(' mm', ''))
    }
  })
})

describe('conductors', () => {
  const common = { id: 'w', name: 'w', kind: 'wire' as const, temperature_C: 155 }
  const litz: Wire = {
    ...common,
    construction: 'litz',
    strands: 100,
    strand_m: 0.1e-3,
    overall_m: 1.3e-3,
    lay: 1.02,
  }
  const foil: Wire = {
    ...common,
    construction: 'foil',
    thickness_m: 0.1e-3,
    width_m: 15e-3,
    insulation_m: 50e-6,
  }

  it('counts all strands, and the lay in resistance', () => {
    expect(copperArea_m2(litz)).toBeCloseTo((100 * Math.PI * 0.01e-6) / 4, 15)
    const straight = dcResistance_ohm_per_m({ ...litz, lay: 1 }, 20)
    expect(dcResistance_ohm_per_m(litz, 20) / straight).toBeCloseTo(1.02, 12)
  })

  it('gives foil its rectangle and copper 0.393 % a kelvin', () => {
    expect(dcResistance_ohm_per_m(foil, 20)).toBeCloseTo(1.7241e-8 / 1.5e-6, 12)
    expect(copperResistanceRatio(20, 100)).toBeCloseTo(1.3144, 4)
  })

  it('keeps the enamel increase rising between tabled sizes', () => {
    let last = 0
    for (let bare_m = 0.02e-3; bare_m < 5e-3; bare_m *= 1.07) {
      const increase = enamelledOverall_m(bare_m, 2) - bare_m
      expect(increase).toBeGreaterThanOrEqual(last - 1.5e-6) // a rounded table may step back a micrometre
      last = increase
    }
  })
})

describe('eddy-current functions', () => {
  it('starts as the fourth power of diameter and ends as thickness over skin depth', () => {
    expect(roundWireResponse(0.2, 1).resistanceFactor - 1).toBeCloseTo(0.1 ** 4 / 48, 8) // series of J0/J1
    expect(roundWireResponse(200, 1).resistanceFactor).toBeCloseTo(50.25, 2) // a/2δ + 1/4
    expect(roundWireResponse(0.02, 1).quadrupoleImaginary / (-(0.01 ** 2) / 12)).toBeCloseTo(1, 3) // x²/24
    expect(roundWireResponse(0.002, 1).quadrupoleImaginary / (-(0.001 ** 2) / 12)).toBeCloseTo(1, 6)
    expect(roundWireResponse(0.2, 1).dipoleImaginary).toBeCloseTo(-(0.1 ** 2) / 4, 6) // x²/8
    expect(roundWireResponse(400, 1).dipoleReal).toBeCloseTo(-1 + 1 / 200, 5) // flux kept to one skin depth
  })

  it('joins its series and limits without a step', () => {
    for (const xi of [0.02, 40])
      for (const f of [sheetSkinFactor, sheetProximityFactor])
        expect(f(xi * 1.0001) / f(xi * 0.9999)).toBeCloseTo(1, 2)
  })
})
