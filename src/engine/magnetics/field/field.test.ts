import { describe, expect, it } from 'vitest'
import { enamelled, sampleStack } from '../../../../test/support/sample-stack.ts'
import { layerFields, layOut, type StackInput, type StackLayout } from '../stack/index.ts'
import { copperResistivity_ohm_m, copperSkinDepth_m, dowellFactor } from '../wire/index.ts'
import { solveComplex } from './complex-solve.ts'
import {
  conductorFields,
  copperLoss,
  fieldMap,
  foilThicknessLoss,
  gapLoss,
  gapShare,
  type Harmonics,
  inductanceMatrix_H,
  leakage_H,
  piecewiseLinearHarmonics,
  postGap,
  spacerGaps,
  spreadGap,
  stackField,
  stackResistances,
  strandCountLoss,
  strandDiameterLoss,
  windowInductance_H,
} from './index.ts'
import { prepareSection, sectionLossAt } from './section-loss.ts'
import { factorMode, meshSlot, newSlotMode, type Slot, solveMode } from './slot.ts'
import { solveWindow } from './window-field.ts'

const mu0 = 4e-7 * Math.PI
const laid = (input: StackInput): StackLayout => {
  const result = layOut(input)
  if (!result.ok) throw new Error(result.errors[0]!.message)
  return result.layout
}
const layout = laid(sampleStack())
const gaps = postGap(0.3e-3, 0.9)

describe('slot of one harmonic', () => {
  it('is exact in a planar slot: sheet on the wall', () => {
    // A = μ0 K cosh k(b − x)/(k sinh kw) for a sheet K cos kz on the wall x = a.
    const slot: Slot = { inner_m: 0.004, outer_m: 0.009, height_m: 0.014, planar: true }
    const mesh = meshSlot(slot, [{ bottom_m: 0.005, top_m: 0.006 }])
    const mode = newSlotMode(mesh)
    for (const n of [1, 7, 40]) {
      const k = (n * Math.PI) / slot.height_m
      factorMode(mesh, k, mode)
      const u = new Float64Array(mesh.nodes_m.length)
      u[0] = mu0
      solveMode(mode, u, 0)
      mesh.nodes_m.forEach((x, i) => {
        const exact = (mu0 * Math.cosh(k * (0.009 - x))) / (k * Math.sinh(k * 0.005))
        expect(u[i]! / exact).toBeCloseTo(1, 9)
      })
    }
  })

  it('converges with the square of the step in a round slot', () => {
    // A = I1(kr) solves the equation without current; its Bz = k I0(kr) on both walls is given.
    const bessel = (order: number, x: number): number => {
      let term = (x / 2) ** order
      for (let m = 1; m <= order; m++) term /= m
      let sum = 0
      for (let m = 0; m < 60; m++) {
        sum += term
        term *= (x * x) / 4 / ((m + 1) * (m + 1 + order))
      }
      return sum
    }
    const slot: Slot = { inner_m: 0.004, outer_m: 0.012, height_m: 0.014, planar: false }
    const k = Math.PI / slot.height_m
    const errorWith = (parts: number): number => {
      const bands = Array.from({ length: parts }, (_, i) => ({
        bottom_m: 0.004 + (0.008 * i) / parts,
        top_m: 0.004 + (0.008 * (i + 1)) / parts,
      }))
      const mesh = meshSlot(slot, bands)
      const mode = newSlotMode(mesh)
      factorMode(mesh, k, mode)
      const u = new Float64Array(mesh.nodes_m.length)
      u[0] = -Math.sqrt(0.004) * k * bessel(0, k * 0.004)
      u[u.length - 1] = Math.sqrt(0.012) * k * bessel(0, k * 0.012)
      solveMode(mode, u, 0)
      return Math.max(
        ...Array.from(u, (value, i) => {
          const r = mesh.nodes_m[i]!
          return Math.abs(value / (Math.sqrt(r) * bessel(1, k * r)) - 1)
        }),
      )
    }
    const [coarse, middle, fine] = [errorWith(8), errorWith(16), errorWith(32)]
    expect(coarse).toBeLessThan(0.01)
    expect(Math.log2(coarse / middle)).toBeCloseTo(2, 0.7)
    expect(Math.log2(middle / fine)).toBeCloseTo(2, 0.7)
  })
})

describe('static field', () => {
  it('is the one-dimensional formula when blocks fill the height', () => {
    const { energy_H: w } = solveWindow({
      slot: { inner_m: 0.004, outer_m: 0.009, height_m: 0.014, planar: true },
      bands: [
        { bottom_m: 0.005, top_m: 0.006 },
        { bottom_m: 0.0063, top_m: 0.0068 },
      ],
      rows: [0, 1].map((band) => ({
        band,
        winding: band,
        z_m: Float64Array.of(0),
        width_m: 0.014,
        current: 1,
      })),
      turns: [1, 1],
      gaps: [],
      harmonics: 20,
    })
    const exact = (mu0 / 0.014) * (1e-3 / 3 + 0.3e-3 + 0.5e-3 / 3)
    expect((w[0]! - w[1]! - w[2]! + w[3]!) / exact).toBeCloseTo(1, 9)
  })

  it('holds half L I squared in its field', () => {
    const covered = laid(sampleStack({ core: { ...sampleStack().core, coveredFraction: 1 } }))
    const field = stackField(covered, [])
    const currents = [1, -60 / 8, 0]
    const map = fieldMap(field, currents, 200, 200)
    const { slot } = field.sections[0]!.section.model
    const cell = ((slot.outer_m - slot.inner_m) / map.columns) * (slot.height_m / map.rows)
    let energy_J = 0
    map.x_m.forEach((x, c) => {
      for (let r = 0; r < map.rows; r++) {
        const square = map.axial_T[c * map.rows + r]! ** 2 + map.radial_T[c * map.rows + r]! ** 2
        energy_J += (square / (2 * mu0)) * 2 * Math.PI * (covered.barrelRadius_m + x) * cell
      }
    })
    expect(energy_J / (leakage_H(field, 'primary', 'secondary')! / 2)).toBeCloseTo(1, 1.7)
  })

  it('settles as harmonics are added', () => {
    const { model } = stackField(layout, gaps).sections[0]!.section
    const at = (harmonics: number): number => {
      const { energy_H: w } = solveWindow({ ...model, harmonics })
      return w[0]! - 15 * w[1]! + 56.25 * w[4]! // equal and opposite ampere-turns, 60 : 8
    }
    const settled = at(1200)
    const errors = [40, 80, 160, 320].map((harmonics) => Math.abs(at(harmonics) / settled - 1))
    for (let i = 1; i < errors.length; i++) expect(errors[i]!).toBeLessThan(errors[i - 1]! / 2)
    expect(Math.abs(at(model.harmonics) / settled - 1)).toBeLessThan(2e-3)
  })

  it('gives the first winding the inductance of the gapped core', () => {
    const field = stackField(layout, gaps)
    const matrix = inductanceMatrix_H(field, 250e-9)!
    expect(matrix[0]! / (3600 * 250e-9)).toBeCloseTo(1, 12)
    const coupling = matrix[1]! / Math.sqrt(matrix[0]! * matrix[4]!)
    expect(coupling).toBeGreaterThan(0.98)
    expect(coupling).toBeLessThan(1)
    expect(inductanceMatrix_H(field, 1e-12)).toBeUndefined()
    expect(leakage_H(field, 'primary', 'tertiary')).toBeUndefined()
  })

  it('hardly moves leakage when a gap is cut', () => {
    // Finite elements: less than 0.1 % for 0.6 mm, see the reference cases.
    const with_H = leakage_H(stackField(layout, gaps), 'primary', 'secondary')!
    const without_H = leakage_H(stackField(layout, []), 'primary', 'secondary')!
    expect(with_H / without_H).toBeCloseTo(1, 9)
  })
})

describe('loss', () => {
  it('is Dowell for foils that fill the window', () => {
    const delta_m = copperSkinDepth_m(200e3, 20)
    const thick_m = 1.2 * delta_m
    const bands = [0, 1, 2, 3].map((i) => ({
      bottom_m: 5e-3 + i * 0.5e-3,
      top_m: 5e-3 + i * 0.5e-3 + thick_m,
    }))
    const prepared = prepareSection({
      model: {
        slot: { inner_m: 0.004, outer_m: 0.009, height_m: 0.014, planar: true },
        bands,
        rows: bands.map((_, band) => ({
          band,
          winding: 0,
          z_m: Float64Array.of(0),
          width_m: 0.014,
          current: band === 3 ? -3 : 1,
        })),
        turns: [0],
        gaps: [],
        harmonics: 60,
      },
      conductors: bands.map((_, i) => (i === 3 ? { kind: 'even' } : { kind: 'foil', thickness_m: thick_m })),
      length_m: [1, 1, 1, 1],
      layer: [0, 1, 2, 3],
      part: 1,
    })
    const loss = sectionLossAt(prepared, 200e3, copperResistivity_ohm_m(20))
    expect(loss.ok).toBe(true)
    if (!loss.ok) return
    const dc_ohm = copperResistivity_ohm_m(20) / (thick_m * 0.014)
    const ratio = (loss.loss_ohm[0]! + loss.loss_ohm[1]! + loss.loss_ohm[2]!) / (3 * dc_ohm)
    expect(ratio / dowellFactor(1.2, 3)).toBeCloseTo(1, 3)
  })

  it('interpolates over frequency within half a per cent', () => {
    const field = stackField(layout, gaps)
    const all = stackResistances(
      field,
      Array.from({ length: 20 }, (_, n) => (n + 1) * 1e5),
      80,
    )
    const few = stackResistances(field, [1e5, 3e5, 7e5, 13e5, 20e5], 80)
    expect(all.ok && few.ok).toBe(true)
    if (!all.ok || !few.ok) return
    few.matrices.forEach((matrix) => {
      const other = all.matrices.find((m) => m.frequency_Hz === matrix.frequency_Hz)!
      matrix.resistance_ohm.forEach((value, c) => {
        expect(other.resistance_ohm[c]! / value).toBeCloseTo(1, 2)
      })
    })
  })

  it('adds a shield’s loss to the windings that drive it', () => {
    const base = sampleStack()
    const shielded = laid({
      ...base,
      stack: base.stack.toSpliced(
        2,
        0,
        { kind: 'shield', thickness_m: 50e-6, pin: 2 },
        { kind: 'tape', layers: 1 },
      ),
    })
    const result = stackResistances(stackField(shielded, gaps), [1e5], 80)
    expect(result.ok).toBe(true)
    if (result.ok) expect(result.layers[0]!.at(-1)![0]!).toBeGreaterThan(0)
  })

  it('splits litz finely enough to beat one wire of the same copper', () => {
    const base = sampleStack()
    const common = { id: 'w', name: 'w', kind: 'wire' as const, temperature_C: 155 }
    const wound = (wire: StackInput['wires'][string]): number => {
      const made = laid({ ...base, wires: { ...base.wires, secondary: wire } })
      const result = stackResistances(stackField(made, gaps), [3e5], 80)
      if (!result.ok) throw new Error(result.message)
      // Only what is lost in the secondary's own layer.
      return result.layers[0]![made.layers.findIndex((l) => l.winding === 'secondary')]![4]!
    }
    const solid = wound({
      inHand: 1,
      wire: { ...common, construction: 'enamelled', bare_m: 1e-3, grade: 2, overall_m: 1.094e-3 },
    })
    const litz = wound({
      inHand: 1,
      wire: {
        ...common,
        construction: 'litz',
        strands: 400,
        strand_m: 0.05e-3,
        overall_m: 1.4e-3,
        lay: 1.02,
      },
    })
    expect(litz).toBeLessThan(solid / 2)
  })

  it('takes many wires row by row close to all of them coupled', () => {
    const base = sampleStack()
    const wound = (turns: number, bare_mm: number): StackLayout =>
      laid({
        ...base,
        stack: [
          { kind: 'winding', winding: 'primary', turns, direction: 'clockwise', startPin: 1, finishPin: 2 },
        ],
        wires: { primary: { wire: enamelled(bare_mm), inHand: 1 } },
        tapeLayersInside: 0,
      })
    // Two windings of one shape at one diameter over skin depth: 798 wires are coupled, 812 are not.
    const ratio = [798, 812].map((turns) => {
      const made = wound(turns, 0.1)
      const solved = stackResistances(stackField(made, gaps), [1e6], 20)
      if (!solved.ok) throw new Error(solved.message)
      return solved.matrices[0]!.resistance_ohm[0]! / turns ** 3
    })
    expect(ratio[1]! / ratio[0]!).toBeCloseTo(1, 1)
  })

  it('gives the field at every conductor', () => {
    const fields = conductorFields(stackField(layout, gaps), [1, 0, 0])
    expect(fields.length).toBe(60 + 8 * 3 + 9)
    // One ampere in 60 turns: beside the gap the field is near μ0 F/(π x), x about 1.1 mm from the post.
    const beside = fields
      .filter((f) => f.layer === 0)
      .reduce((p, q) => (Math.abs(p.z_m) < Math.abs(q.z_m) ? p : q))
    const line_T = (mu0 * 60 * 0.9) / (Math.PI * (beside.x_m + 0.9e-3))
    expect(Math.hypot(beside.axial_T, beside.radial_T) / line_T).toBeGreaterThan(0.7)
    expect(Math.hypot(beside.axial_T, beside.radial_T) / line_T).toBeLessThan(1.1)
  })

  it('refuses equations without a solution', () => {
    const system = {
      size: 2,
      sides: 1,
      real: Float64Array.of(1, 2, 2, 4),
      imaginary: new Float64Array(4),
      sideReal: Float64Array.of(1, 1),
      sideImaginary: new Float64Array(2),
    }
    expect(solveComplex(system)).toBe(false)
  })
})

describe('a window that is symmetric about its middle', () => {
  const foil = {
    id: 'foil',
    name: 'foil',
    kind: 'wire',
    construction: 'foil',
    temperature_C: 130,
    thickness_m: 0.1e-3,
    width_m: 14e-3,
    insulation_m: 50e-6,
  } as const
  const input = sampleStack()
  const made = layOut({ ...input, wires: { ...input.wires, secondary: { wire: foil, inHand: 1 } } })
  if (!made.ok) throw new Error(made.errors[0]!.message)
  const secondary = (z_m: number): number => {
    const solved = stackResistances(stackField(made.layout, postGap(0.3e-3, 0.9, z_m)), [1e5], 80)
    if (!solved.ok) throw new Error(solved.message)
    const { windings, resistance_ohm } = solved.matrices[0]!
    const i = windings.indexOf('secondary')
    return resistance_ohm[i * windings.length + i]!
  }

  it('gives what the same window gives without the symmetry', () => {
    // A gap a hundredth of its length off the middle is another window by nothing but the way it is solved.
    expect(secondary(0) / secondary(3e-6)).toBeCloseTo(1, 2)
  })
})

describe('waveforms', () => {
  it('has the series of a square wave and of a sawtooth', () => {
    const square = piecewiseLinearHarmonics([0, 0.5, 0.5, 1], [1, 1, -1, -1], 1, 5)
    // 4/(π n) sin: phasor −j 4/(π n) for odd n.
    expect(square.average).toBeCloseTo(0, 12)
    expect(square.imaginary[0]).toBeCloseTo(-4 / Math.PI, 12)
    expect(square.imaginary[1]).toBeCloseTo(0, 12)
    expect(square.imaginary[2]).toBeCloseTo(-4 / (3 * Math.PI), 12)
    const saw = piecewiseLinearHarmonics([0, 1], [0, 1], 1, 3)
    expect(saw.average).toBeCloseTo(0.5, 12)
    expect(saw.imaginary[1]).toBeCloseTo(1 / (2 * Math.PI), 12) // ½ − Σ sin(2πnt)/(πn)
  })

  const flyback = (harmonics: number): Harmonics[] => [
    piecewiseLinearHarmonics([0, 0, 4e-6, 4e-6], [0, 0.4, 0.8, 0], 1e-5, harmonics),
    piecewiseLinearHarmonics([4e-6, 4e-6, 1e-5], [0, 6, 3], 1e-5, harmonics),
    piecewiseLinearHarmonics([0, 1e-5], [0, 0], 1e-5, harmonics),
  ]

  it('sums to R times rms squared when resistance does not rise', () => {
    const currents = flyback(4000).slice(0, 1)
    const matrices = Array.from({ length: 4000 }, (_, n) => ({
      frequency_Hz: (n + 1) * 1e5,
      windings: ['primary'],
      resistance_ohm: Float64Array.of(2),
      method: 'field' as const,
    }))
    // Trapezoid of 0.4 to 0.8 A over a duty of 0.4: rms² = 0.4 (0.16 + 0.32 + 0.64)/3.
    const rms2 = (0.4 * (0.16 + 0.32 + 0.64)) / 3
    expect(copperLoss([2], matrices, currents).total_W / (2 * rms2)).toBeCloseTo(1, 3)
  })

  it('wins back loss by spreading the gap, and by moving turns away from it', () => {
    const result = gapLoss(layout, gaps, flyback(10), 1e5, 80)
    expect(result.ok).toBe(true)
    if (!result.ok) return
    expect(result.loss.spreadGap_W).toBeLessThan(result.loss.asBuilt_W)
    expect(result.loss.evenGap_W).toBeLessThan(result.loss.spreadGap_W)
    const base = sampleStack()
    const away = laid({ ...base, stack: [{ kind: 'tape', layers: 12 }, ...base.stack] })
    const moved = gapLoss(away, gaps, flyback(10), 1e5, 80)
    expect(moved.ok && moved.loss.asBuilt_W).toBeLessThan(result.loss.asBuilt_W)
  })

  it('finds a least loss inside the range for strands and foil', () => {
    const request = {
      fields: layerFields(layout, { post: 0.9, outerLegs: 0 }),
      winding: 'secondary',
      currents: flyback(12),
      frequency_Hz: 1e5,
      temperature_C: 80,
    }
    for (const curve of [
      strandDiameterLoss(request, 20, 0.02e-3, 2e-3),
      strandCountLoss(request, 0.2e-3, 1, 2000),
      foilThicknessLoss(request, 14e-3, 5e-6, 2e-3),
    ]) {
      expect(curve.best.x).toBeGreaterThan(curve.x[0]!)
      expect(curve.best.x).toBeLessThan(curve.x.at(-1)!)
      expect(curve.best.y).toBeLessThanOrEqual(Math.min(...curve.y))
    }
    // Many fine strands beat few thick ones at the same copper.
    const fine = strandDiameterLoss(request, 400, 0.02e-3, 1e-3).best.y
    expect(fine).toBeLessThan(strandDiameterLoss(request, 4, 0.02e-3, 2e-3).best.y)
  })
})

describe('gaps', () => {
  it('shares ampere-turns by permeance and area', () => {
    expect(gapShare(100e-9, 2000e-9)).toBeCloseTo(0.95, 12)
    expect(gapShare(3e-6, 2e-6)).toBe(0)
    const [post, outer] = spacerGaps(0.1e-3, 0.9, 50e-6, 100e-6)
    expect(post!.share).toBeCloseTo(0.6, 12)
    expect(outer!.share).toBeCloseTo(0.3, 12)
    const parts = spreadGap(0.6e-3, 0.9, 3, 0.018)
    expect(parts.map((g) => g.z_m)).toEqual([-0.006, 0, 0.006].map((z) => expect.closeTo(z, 12)))
    expect(parts.reduce((sum, g) => sum + g.share, 0)).toBeCloseTo(0.9, 12)
  })

  it('keeps the window’s energy positive with gaps in the outer legs', () => {
    const w = windowInductance_H(stackField(layout, spacerGaps(0.15e-3, 0.9, 50e-6, 50e-6)))
    expect(w[0]!).toBeGreaterThan(0)
    expect(w[0]! * w[4]! - w[1]! * w[3]!).toBeGreaterThan(0)
  })
})
