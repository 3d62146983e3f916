import { coreGeometry, effectiveParameters } from '../../../src/engine/magnetics/core/index.ts'
import { solveWindow } from '../../../src/engine/magnetics/field/index.ts'
import { gapGeometry, gapPermeance, inductanceFactor, mu0 } from '../../../src/engine/magnetics/gap/index.ts'
import {
  layerFields,
  leakageClosedForm,
  resistanceClosedForm,
  windingCopper,
} from '../../../src/engine/magnetics/stack/index.ts'
import { roundWireResponse, skinDepth_m } from '../../../src/engine/magnetics/wire/index.ts'
import cores from '../cores/cores.json'
import {
  casesOf,
  foilSection,
  leakageLayout,
  leakageModel,
  resistanceRatio,
  resistivity_ohm_m,
  shareOf,
  wireLayout,
  wireSection,
} from '../field/models.ts'
import { exactRoundGap } from '../gap/mode-matching.ts'
import { byId, model, named, number, rectangularCase, ring, roundCase } from '../gap/models.ts'
import { type Comparison, ratio, type Topic } from './comparison.ts'

const gapped = (group: string) =>
  named(group)
    .map(([, c]) => c)
    .filter((c) => number(c.geometry, 'centre_gap') > 0)

function gapOfRoundPosts(): Comparison[] {
  const core_per_H = 1 / number(byId('G1-M-full-g0').result, 'L_per_N2')
  const finite = gapped('gap_inductance').map((c) => {
    const place = number(c.geometry, 'outer_ring_gap') > 0 ? 'all-legs' : 'post'
    const factor = inductanceFactor(model(roundCase(c), place), core_per_H, number(c.geometry, 'centre_gap'))
    return ratio(c.id, factor, number(c.result, 'L_per_N2'), 'nH per turn²', 1e9)
  })
  const sizes = { 'tall window': [5.5, 4, 40], 'wide window': [5.5, 12, 11], 'small post': [2.2, 3, 11] }
  const exact = Object.entries(sizes).flatMap(([name, [r = 0, w = 0, h = 0]]) =>
    [0.1, 0.5, 1, 2].map((gap_mm) => {
      const made = model(ring(r * 1e-3, w * 1e-3, h * 1e-3, (r + w) * 1.2e-3, 4e-3))
      const wanted = mu0 * exactRoundGap(r * 1e-3, w * 1e-3, h * 1e-3, gap_mm * 1e-3)
      return ratio(`${name}, ${gap_mm} mm`, gapPermeance(made, gap_mm * 1e-3), wanted, 'nH per turn²', 1e9)
    }),
  )
  return [...finite, ...exact]
}

function gapOfRectangularPosts(): Comparison[] {
  return gapped('gap_E_3D').map((c) => {
    const plane = number(byId('G2A-EA-g0').result, 'L_per_N2_per_m_depth')
    const core_per_H = 1 / (plane * number(c.geometry, 'post_depth'))
    const factor = inductanceFactor(model(rectangularCase(c)), core_per_H, number(c.geometry, 'centre_gap'))
    return ratio(c.id, factor, number(c.result, 'L_per_N2'), 'nH per turn²', 1e9)
  })
}

function gapFromDrawing(): Comparison[] {
  const core = coreGeometry({
    shape: 'E',
    dimensions: { A_m: 24.8e-3, B_m: 12.7e-3, C_m: 7.2e-3, D_m: 8.7e-3, E_m: 17.6e-3, F_m: 7.2e-3 },
  })
  if (!core.ok) throw new Error('the E core is refused')
  const core_per_H = core.value.effective.C1_per_m / (mu0 * 2000)
  const made = model(gapGeometry(core.value))
  return gapped('gap_E_3D').map((c) =>
    ratio(
      c.id,
      inductanceFactor(made, core_per_H, number(c.geometry, 'centre_gap')),
      number(c.result, 'L_per_N2'),
      'nH per turn²',
      1e9,
    ),
  )
}

const leakageSolved = (): Comparison[] =>
  casesOf('leakage').map((item) => {
    const { energy_H: w } = solveWindow(leakageModel(item))
    const found = w[0]! - w[1]! - w[2]! + w[3]!
    return ratio(item.id, found, item.result.L_leak_per_Np2!, 'nH per turn²', 1e9)
  })

const leakageEstimated = (): Comparison[] =>
  casesOf('leakage').map((item) => {
    const closed = leakageClosedForm(leakageLayout(item), 'primary', 'secondary')!
    return ratio(item.id, closed.leakage_H / 4, item.result.L_leak_per_Np2!, 'nH per turn²', 1e9)
  })

const singleWires = (): Comparison[] =>
  casesOf('ac_wire').map((item) => {
    const { diameter } = item.geometry as unknown as { diameter: number }
    const delta_m = skinDepth_m(item.excitation.frequency!, resistivity_ohm_m)
    const { resistanceFactor } = roundWireResponse(diameter, delta_m)
    return ratio(item.id, resistanceFactor, item.result.Rac_over_Rdc!)
  })

const foils = (): Comparison[] =>
  casesOf('ac_foil').map((item) =>
    ratio(
      item.id,
      resistanceRatio(foilSection(item), item.excitation.frequency!).whole,
      item.result.Rac_over_Rdc!,
    ),
  )

const woundWires = (): Comparison[] =>
  ['ac_round_wire', 'ac_round_wire_gapped'].flatMap((group) =>
    casesOf(group).map((item) =>
      ratio(
        item.id,
        resistanceRatio(wireSection(item), item.excitation.frequency!).whole,
        item.result.Rac_over_Rdc!,
      ),
    ),
  )

const woundWiresEstimated = (): Comparison[] =>
  casesOf('ac_round_wire_gapped').map((item) => {
    const layout = wireLayout(item)
    const post = shareOf(item.geometry, item.result.L_dc! / 3600)
    const fields = layerFields(layout, { post, outerLegs: 0 })
    const matrix = resistanceClosedForm(fields, item.excitation.frequency!, 20)
    const dc_ohm = windingCopper(layout, 'primary', 20)!.dcResistance_ohm
    return ratio(item.id, matrix.resistance_ohm[0]! / dc_ohm, item.result.Rac_over_Rdc!)
  })

const printedCores = (): Comparison[] =>
  cores.flatMap(({ shape, size, dimensions, area_mm2, length_mm }) => {
    const metres = Object.fromEntries(
      Object.entries(dimensions).map(([name, mm]) => [name.replace('_mm', '_m'), mm * 1e-3]),
    )
    type Given = Parameters<typeof effectiveParameters>
    const computed = effectiveParameters(shape as Given[0], metres as Given[1])
    return [
      ratio(`${size}, area`, computed.area_m2 * 1e6, area_mm2, 'mm²'),
      ratio(`${size}, length`, computed.length_m * 1e3, length_mm, 'mm'),
    ]
  })

const finite = 'finite elements (FreeFEM 4.11)'

export const magneticsTopics = (): Topic[] => [
  {
    title: 'Gap of a round post: closed form',
    against: `${finite}, and the exact mode solution`,
    folder: 'gap',
    rows: gapOfRoundPosts(),
  },
  {
    title: 'Gap of a rectangular post: closed form',
    against: `${finite}, three dimensions`,
    folder: 'gap',
    rows: gapOfRectangularPosts(),
  },
  {
    title: 'The same from the letters of the drawing and a permeability alone',
    against: `${finite}, three dimensions`,
    folder: 'gap',
    rows: gapFromDrawing(),
  },
  {
    title: 'Effective area and length from the drawing',
    against:
      'printed tables (the letters of PQ and RM leave their outline open; where a core has a table, it is used)',
    folder: 'cores',
    rows: printedCores(),
  },
  { title: 'Leakage: field solution', against: finite, folder: 'field', rows: leakageSolved() },
  { title: 'Leakage: closed form', against: finite, folder: 'field', rows: leakageEstimated() },
  {
    title: 'Resistance of one round wire: closed form',
    against: finite,
    folder: 'field',
    rows: singleWires(),
  },
  { title: 'Resistance of foils: field solution', against: finite, folder: 'field', rows: foils() },
  {
    title: 'Resistance of round wires, wound: field solution',
    against: finite,
    folder: 'field',
    rows: woundWires(),
  },
  {
    title: 'Resistance of round wires beside a gap: closed form',
    against: finite,
    folder: 'field',
    rows: woundWiresEstimated(),
  },
]
