import { describe, expect, it } from 'vitest'
import {
  copperResistivity_ohm_m,
  copperSkinDepth_m,
  dcResistance_ohm_per_m,
  dowellFactor,
  enamelledOverall_m,
  foilThicknessCurve,
  layerThickness_m,
  litzBundle_m,
  roundWireResponse,
  strandDiameterCurve,
} from '../../../src/engine/magnetics/wire/index.ts'
import { awgDiameter_m, swgDiameter_m } from '../../../src/engine/quantity/index.ts'

const within = (value: number, wanted: number, relative: number): void => {
  expect(Math.abs(value / wanted - 1)).toBeLessThanOrEqual(relative)
}

describe('copper', () => {
  it('has the resistivity of the standard law at 100 °C', () => {
    within(copperResistivity_ohm_m(100), 2.266e-8, 0.001) // 0.00393 per kelvin; four printed digits
    within(copperResistivity_ohm_m(100), 2.3e-8, 0.02) // Dixon 5-9: 0.0042 per kelvin, two digits
  })

  it('has the skin depth of a worked example', () => {
    within(copperSkinDepth_m(100e3, 100), 0.24e-3, 0.02) // Dixon 5-10, 5-14, two digits
    within(copperSkinDepth_m(200e3, 100), 0.17e-3, 0.02)
  })

  it.each([
    [18, 1.0237, 0.823, 20.95],
    [19, 0.9116, 0.6527, 26.41],
    [20, 0.8118, 0.5176, 33.31],
    [22, 0.6438, 0.3255, 52.96],
    [24, 0.5106, 0.2047, 84.22],
    [26, 0.4049, 0.1288, 133.9],
    [27, 0.3606, 0.1021, 168.9],
    [28, 0.3211, 0.081, 212.9],
    [30, 0.2546, 0.0509, 338.6],
    [34, 0.1601, 0.0201, 856],
    [36, 0.127, 0.01267, 1361],
    [40, 0.0799, 0.00501, 3441],
  ])('AWG %i: %f mm, %f mm², %f mΩ/m (ASTM B258)', (gauge, d_mm, area_mm2, mohm) => {
    const bare_m = awgDiameter_m(gauge)
    within(bare_m, d_mm / 1000, 0.003) // printed rounding
    within((Math.PI * bare_m ** 2) / 4, area_mm2 * 1e-6, 0.003)
    const resistance = dcResistance_ohm_per_m(
      {
        id: 'w',
        name: 'w',
        kind: 'wire',
        temperature_C: 155,
        construction: 'enamelled',
        bare_m,
        grade: 1,
        overall_m: bare_m * 1.1,
      },
      20,
    )
    within(resistance, mohm / 1000, 0.003)
  })

  it.each([
    [18, 1.219],
    [20, 0.914],
    [22, 0.711],
    [26, 0.457],
    [30, 0.315],
    [36, 0.193],
  ])('SWG %i is %f mm (BS 3737)', (gauge, d_mm) => {
    within(swgDiameter_m(gauge)!, d_mm / 1000, 0.001) // printed to 1 µm
  })
})

describe('enamelled wire, greatest overall diameter (IEC 60317-0-1)', () => {
  it.each([
    [0.2, 0.226, 0.239],
    [0.224, 0.252, 0.266],
    [0.25, 0.281, 0.297],
    [0.315, 0.349, 0.367],
    [0.355, 0.392, 0.411],
    [0.4, 0.439, 0.459],
    [0.5, 0.544, 0.566],
    [0.56, 0.606, 0.63],
    [0.63, 0.679, 0.704],
    [0.8, 0.855, 0.884],
    [1, 1.062, 1.094],
  ])('%f mm: %f mm grade 1, %f mm grade 2', (bare, one, two) => {
    expect(enamelledOverall_m(bare / 1000, 1)).toBeCloseTo(one / 1000, 9)
    expect(enamelledOverall_m(bare / 1000, 2)).toBeCloseTo(two / 1000, 9)
  })
})

describe('litz', () => {
  it.each([
    [10, 0.0031, 4.995, 6.105, 0.087, 0.095, 0.024],
    [20, 0.0063, 2.4975, 3.0525, 0.125, 0.136, 0.024],
    [60, 0.0188, 0.8488, 1.0375, 0.218, 0.238, 0.024],
  ])('%i × 0.020 mm as a maker prints it', (strands, area_mm2, least, most, low, high, grade1) => {
    const wire = {
      id: 'w',
      name: 'w',
      kind: 'wire' as const,
      temperature_C: 155,
      construction: 'litz' as const,
      strands,
      strand_m: 20e-6,
      overall_m: 1e-4,
      lay: 1.02,
    }
    within((strands * Math.PI * 20e-6 ** 2) / 4, area_mm2 * 1e-6, 0.02) // two printed digits
    const resistance = dcResistance_ohm_per_m(wire, 20)
    expect(resistance).toBeGreaterThan(least)
    expect(resistance).toBeLessThan(most)
    const overall_mm = litzBundle_m(strands, grade1 / 1000) * 1000
    expect(overall_mm).toBeGreaterThan(low * 0.95) // range of the table, widened by 5 %
    expect(overall_mm).toBeLessThan(high * 1.05)
  })
})

describe('Bessel solution of a round wire', () => {
  it('agrees with tabled Kelvin functions at x = 1', () => {
    // Abramowitz & Stegun, table 9.12: ber 1, bei 1, ber′ 1, bei′ 1.
    const [ber, bei, dber, dbei] = [0.9843817812, 0.24956604, -0.0624457522, 0.4973965115]
    const ratio = (0.5 * (ber * dbei - bei * dber)) / (dber ** 2 + dbei ** 2)
    expect(roundWireResponse(Math.SQRT2, 1).resistanceFactor).toBeCloseTo(ratio, 8)
  })

  it.each([
    [0.5, 1],
    [1, 1.005],
    [2, 1.078],
    [3, 1.318],
    [4, 1.678],
    [5, 2.043],
    [10, 3.799],
  ])('R_ac/R_dc at x = %f is %f (Rosa & Grover)', (x, ratio) => {
    // x = √2 a/δ; three printed decimals, remembered
    expect(roundWireResponse(Math.SQRT2 * x, 1).resistanceFactor).toBeCloseTo(ratio, 3)
  })
})

describe('Dowell', () => {
  it('meets worked foil examples', () => {
    within(dowellFactor(0.625, 6), 1.6, 0.03) // Dixon 5-14, chart; closed form 1.603
    within(dowellFactor(6, 5), 100, 0.05) // Dixon 5-10, chart; closed form 101.7
    within(dowellFactor(0.225, 36), 1.369, 0.001) // closed form evaluated apart; chart reads 1.6
  })

  it('replaces round strands by a layer as a worked example does', () => {
    const layer_m = layerThickness_m(0.081e-3, 0.125e-3)
    within(layer_m, 0.054e-3, 0.02) // Dixon 5-15, two digits
    within(layer_m / 0.24e-3, 0.225, 0.02)
  })
})

describe('optimum conductors', () => {
  it('meets F = 4/3 for foil of many layers', () => {
    const { best } = foilThicknessCurve(20)
    within(dowellFactor(best.x, 20), 4 / 3, 0.03) // exact for the h⁴ law, 3 % for the whole function
  })

  it('meets F = 3/2 for strands in a strong field', () => {
    const field = 1e5
    const { best } = strandDiameterCurve(field)
    const alone = roundWireResponse(best.x, 1).resistanceFactor
    within(best.y * best.x ** 2, 1.5, 0.03) // exact for the d⁶ law
    expect(alone).toBeCloseTo(1, 3)
  })
})
