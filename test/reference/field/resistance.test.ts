import { describe, expect, it } from 'vitest'
import {
  layerFields,
  resistanceClosedForm,
  windingCopper,
} from '../../../src/engine/magnetics/stack/index.ts'
import { roundWireResponse, skinDepth_m } from '../../../src/engine/magnetics/wire/index.ts'
import {
  type Case,
  casesOf,
  foilSection,
  resistanceRatio,
  resistivity_ohm_m,
  shareOf,
  wireLayout,
  wireSection,
} from './models.ts'

const named = (group: string): (readonly [string, Case])[] => casesOf(group).map((item) => [item.id, item])

describe('winding resistance against finite elements', () => {
  // Closed form against a solved one: 1e-6 is the mesh's own error.
  it.each(named('ac_wire'))('single wire %s', (_, item) => {
    const { diameter } = item.geometry as unknown as { diameter: number }
    const delta_m = skinDepth_m(item.excitation.frequency!, resistivity_ohm_m)
    const ratio = roundWireResponse(diameter, delta_m).resistanceFactor / item.result.Rac_over_Rdc!
    expect(ratio).toBeCloseTo(1, 5)
  })

  // Goal 10 % up to a diameter of 3.3 skin depths. Measured 2.2 %, single layers 3.8 %; held to 3 and 5 %.
  it.each([...named('ac_round_wire'), ...named('ac_round_wire_gapped')])('round wire %s', (_, item) => {
    const ratio = resistanceRatio(wireSection(item), item.excitation.frequency!)
    expect(Math.abs(ratio.whole / item.result.Rac_over_Rdc! - 1)).toBeLessThan(0.03)
    ratio.layers.forEach((value, i) => {
      expect(Math.abs(value / item.result.per_layer![i]! - 1)).toBeLessThan(0.05)
    })
  })

  // Goal 10 %. Measured 0.3 % without a gap and 1.2 % beside one; held to 1.5 and 3 %.
  it.each(named('ac_foil'))('foil %s', (id, item) => {
    const limit = id.includes('gap') ? 0.03 : 0.015
    const ratio = resistanceRatio(foilSection(item), item.excitation.frequency!)
    expect(Math.abs(ratio.whole / item.result.Rac_over_Rdc! - 1)).toBeLessThan(limit)
    ratio.layers.forEach((value, i) => {
      expect(Math.abs(value / item.result.per_layer![i]! - 1)).toBeLessThan(limit)
    })
  })

  // The closed form has no goal beside a gap. Measured −14 to +11 %; held to 17 %.
  it.each(named('ac_round_wire_gapped'))('closed form of %s', (_, item) => {
    const layout = wireLayout(item)
    const share = shareOf(item.geometry, item.result.L_dc! / 3600)
    const fields = layerFields(layout, { post: share, outerLegs: 0 })
    const matrix = resistanceClosedForm(fields, item.excitation.frequency!, 20)
    const dc_ohm = windingCopper(layout, 'primary', 20)!.dcResistance_ohm
    expect(Math.abs(matrix.resistance_ohm[0]! / dc_ohm / item.result.Rac_over_Rdc! - 1)).toBeLessThan(0.17)
  })
})
