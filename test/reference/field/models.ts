import {
  type Band,
  type Conductor,
  prepareSection,
  type Row,
  type SectionModel,
  sectionLossAt,
  type WallGap,
  type WindowModel,
} from '../../../src/engine/magnetics/field/index.ts'
import { layOut, type StackInput, type StackLayout } from '../../../src/engine/magnetics/stack/index.ts'
import cases from './cases.json'

interface Sheet {
  readonly inner?: number
  readonly outer?: number
  readonly inner_radius?: number
  readonly outer_radius?: number
  readonly height: number
  readonly ampere_turns: number
}
interface Geometry {
  readonly [name: string]: unknown
  readonly layers?: readonly {
    readonly kind: string
    readonly inner_radius: number
    readonly outer_radius: number
    readonly ampere_turns_fraction_of_NpIp: number
    readonly axial_height: number | null
  }[]
  readonly foils?: readonly { readonly inner: number; readonly outer: number }[]
  readonly balancing_sheet?: readonly Sheet[]
  readonly layer_centre_radii?: readonly number[]
}
export interface Case {
  readonly id: string
  readonly group: string
  readonly geometry: Geometry
  readonly excitation: { readonly frequency?: number }
  readonly result: {
    readonly L_leak_per_Np2?: number
    readonly L_per_N2?: number
    readonly L_dc?: number
    readonly Rac_over_Rdc?: number
    readonly per_layer?: readonly number[]
    readonly B_profile_per_ampere_turn?: readonly {
      readonly distance_from_post: number
      readonly z: number
      readonly Br: number
      readonly Bz: number
      readonly B_mag: number
    }[]
  }
}

export const casesOf = (group: string): Case[] =>
  (cases as unknown as Case[]).filter((item) => item.group === group)

/** Copper resistivity of the finite-element cases. */
export const resistivity_ohm_m = 1.724e-8
const mu0 = 4e-7 * Math.PI

const number = (geometry: Geometry, ...names: string[]): number => {
  for (const name of names) if (typeof geometry[name] === 'number') return geometry[name]
  throw new Error(`case has none of ${names.join(', ')}`)
}

const slotOf = (geometry: Geometry): WindowModel['slot'] => ({
  inner_m: number(geometry, 'window_inner_radius', 'window_inner_x'),
  outer_m: number(geometry, 'window_outer_radius', 'window_outer_x'),
  height_m: number(geometry, 'window_axial_height'),
  planar: String(geometry.symmetry).startsWith('planar'),
})

/** Share of the ampere-turns across the gap, from the inductance per turn squared and the ferrite's reluctance. */
export const shareOf = (geometry: Geometry, inductance_H: number): number => {
  const a = number(geometry, 'window_inner_radius')
  const b = number(geometry, 'window_outer_radius')
  const area = Math.PI * a * a
  const legs = (2 * number(geometry, 'window_axial_height')) / area
  const plates = Math.log(b / a) / (Math.PI * number(geometry, 'plate_thickness_each'))
  return 1 - (inductance_H * (legs + plates)) / (mu0 * 2000)
}

const gapOf = (geometry: Geometry, inductance_H: number): WallGap[] => [
  {
    wall: 'post',
    z_m: 0,
    length_m: number(geometry, 'centre_gap'),
    share: shareOf(geometry, inductance_H),
  },
]

/** Windings of a leakage case: primary is winding 0, secondary winding 1, one turn each. */
export const leakageModel = (item: Case): WindowModel => {
  const wound = item.geometry.layers!.filter((layer) => layer.axial_height !== null)
  const slot = slotOf(item.geometry)
  const open = item.id.endsWith('openpost')
  return {
    slot: open
      ? {
          ...slot,
          outer_m: slot.inner_m + 3 * (slot.outer_m - slot.inner_m),
          height_m: 2 * slot.height_m,
        }
      : slot,
    bands: wound.map((layer) => ({ bottom_m: layer.inner_radius, top_m: layer.outer_radius })),
    rows: wound.map((layer, band) => ({
      band,
      winding: layer.kind === 'primary' ? 0 : 1,
      z_m: Float64Array.of(0),
      width_m: layer.axial_height!,
      current: Math.abs(layer.ampere_turns_fraction_of_NpIp),
    })),
    turns: [1, 1],
    gaps: [],
    harmonics: 120,
  }
}

/** The same as a layout of foils, for the closed form. */
export const leakageLayout = (item: Case): StackLayout => {
  const { geometry } = item
  const slot = slotOf(geometry)
  const wound = geometry.layers!.filter((layer) => layer.axial_height !== null)
  const layers = wound.map((layer, entry) => ({
    entry,
    winding: layer.kind,
    turns: 2 * Math.abs(layer.ampere_turns_fraction_of_NpIp),
    inHand: 1,
    bottom_m: layer.inner_radius - slot.inner_m,
    top_m: layer.outer_radius - slot.inner_m,
    axialStart_m: -layer.axial_height! / 2,
    axialEnd_m: layer.axial_height! / 2,
    pitch_m: layer.axial_height! / (2 * Math.abs(layer.ampere_turns_fraction_of_NpIp)),
    meanTurn_m: Math.PI * (layer.inner_radius + layer.outer_radius),
  }))
  const barrel = { section: 'round' as const, diameter_m: 2 * slot.inner_m }
  const foil = (thickness_m: number): StackInput['wires'][string] => ({
    inHand: 1,
    wire: {
      id: 'foil',
      name: 'foil',
      kind: 'wire',
      construction: 'foil',
      temperature_C: 155,
      thickness_m,
      width_m: slot.height_m,
      insulation_m: 1e-9,
    },
  })
  return {
    input: {
      stack: [],
      wires: Object.fromEntries(layers.map((l) => [l.winding, foil(l.top_m - l.bottom_m)])),
      tape_m: 0,
      former: { width_m: slot.height_m, height_m: 0.01, barrel, wall_m: 0, flange_m: 0 },
      core: {
        height_m: slot.height_m,
        width_m: slot.outer_m - slot.inner_m,
        post: barrel,
        coveredFraction: 1,
      },
      margin_m: 0,
      tapeLayersInside: 0,
      tail_m: 0,
    },
    windings: ['primary', 'secondary'],
    sections: layers.map((layer) => ({
      ...layer,
      layers: 1,
      turnsPerLayer: layer.turns,
      cutLength_m: 1,
      startPin: 1,
      finishPin: 2,
      direction: 'clockwise' as const,
    })),
    layers,
    tapes: [],
    shields: [],
    availableWidth_m: slot.height_m,
    build_m: layers.at(-1)!.top_m,
    windowHeight_m: 0.01,
    fill: 1,
    copperFill: 1,
    fit: 'fits',
    barrelRadius_m: slot.inner_m,
  }
}

const sheets = (geometry: Geometry, bands: Band[], rows: Row[], conductors: Conductor[]): boolean => {
  const list = geometry.balancing_sheet ?? []
  for (const sheet of list) {
    bands.push({
      bottom_m: (sheet.inner ?? sheet.inner_radius)!,
      top_m: (sheet.outer ?? sheet.outer_radius)!,
    })
    rows.push({
      band: bands.length - 1,
      winding: 0,
      z_m: Float64Array.of(0),
      width_m: sheet.height,
      current: sheet.ampere_turns,
    })
    conductors.push({ kind: 'even' })
  }
  return list.length > 0
}

/** Layers of round wire in series as winding 0, with their balancing sheet or gap. */
export const wireSection = (item: Case): SectionModel => {
  const { geometry } = item
  const diameter_m = number(geometry, 'wire_diameter')
  const side_m = (diameter_m * Math.sqrt(Math.PI)) / 2
  const count = number(geometry, 'turns_per_layer')
  const pitch_m = number(geometry, 'axial_pitch')
  const z_m = Float64Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) * pitch_m)
  const radii = geometry.layer_centre_radii!
  const bands: Band[] = radii.map((r) => ({ bottom_m: r - side_m / 2, top_m: r + side_m / 2 }))
  const rows: Row[] = radii.map((_, band) => ({ band, winding: 0, z_m, width_m: side_m, current: 1 }))
  const conductors: Conductor[] = radii.map(() => ({ kind: 'round', diameter_m }))
  const balanced = sheets(geometry, bands, rows, conductors)
  const turns = count * radii.length
  return {
    model: {
      slot: slotOf(geometry),
      bands,
      rows,
      turns: [balanced ? 0 : turns],
      gaps: balanced ? [] : gapOf(geometry, item.result.L_dc! / turns ** 2),
      harmonics: 120,
    },
    conductors,
    length_m: [...radii.map((r) => 2 * Math.PI * r), 0],
    layer: rows.map((_, i) => i),
    part: 1,
  }
}

/** Foils in series as winding 0, with their balancing sheet or gap. */
export const foilSection = (item: Case): SectionModel => {
  const { geometry } = item
  const foils = geometry.foils!
  const slot = slotOf(geometry)
  const bands: Band[] = foils.map((foil) => ({ bottom_m: foil.inner, top_m: foil.outer }))
  const rows: Row[] = foils.map((_, band) => ({
    band,
    winding: 0,
    z_m: Float64Array.of(0),
    width_m: number(geometry, 'foil_height'),
    current: 1,
  }))
  const conductors: Conductor[] = foils.map((foil) => ({
    kind: 'foil',
    thickness_m: foil.outer - foil.inner,
  }))
  const balanced = sheets(geometry, bands, rows, conductors)
  return {
    model: {
      slot,
      bands,
      rows,
      turns: [balanced ? 0 : foils.length],
      // Inductance per turn squared of this core with this gap and no winding in the way, from the gap cases.
      gaps: balanced ? [] : gapOf(geometry, 2.417e-7),
      harmonics: 200,
    },
    conductors,
    length_m: [...foils.map((foil) => (slot.planar ? 1 : Math.PI * (foil.inner + foil.outer))), 0],
    layer: rows.map((_, i) => i),
    part: 1,
  }
}

/** R_ac/R_dc of a series winding, whole and by layer. */
export const resistanceRatio = (
  section: SectionModel,
  frequency_Hz: number,
): { readonly whole: number; readonly layers: readonly number[] } => {
  const loss = sectionLossAt(prepareSection(section), frequency_Hz, resistivity_ohm_m)
  if (!loss.ok) throw new Error(loss.message)
  const layers: number[] = []
  let ac = 0
  let dc = 0
  section.conductors.forEach((conductor, row) => {
    if (conductor.kind !== 'round' && conductor.kind !== 'foil') return
    const { z_m, width_m } = section.model.rows[row]!
    const area_m2 =
      conductor.kind === 'foil' ? conductor.thickness_m * width_m : (Math.PI * conductor.diameter_m ** 2) / 4
    const rowDc = (resistivity_ohm_m * section.length_m[row]! * z_m.length) / area_m2
    layers.push(loss.loss_ohm[row]! / rowDc)
    ac += loss.loss_ohm[row]!
    dc += rowDc
  })
  return { whole: ac / dc, layers }
}

/** The wires of a gapped case as a layout, for the closed form. */
export const wireLayout = (item: Case): StackLayout => {
  const { geometry } = item
  const overall_m = number(geometry, 'axial_pitch')
  const slot = slotOf(geometry)
  const count = number(geometry, 'turns_per_layer')
  const laid = layOut({
    stack: [
      {
        kind: 'winding',
        winding: 'primary',
        turns: count * geometry.layer_centre_radii!.length,
        direction: 'clockwise',
        startPin: 1,
        finishPin: 2,
      },
    ],
    wires: {
      primary: {
        inHand: 1,
        wire: {
          id: 'wire',
          name: 'wire',
          kind: 'wire',
          construction: 'enamelled',
          temperature_C: 155,
          grade: 2,
          bare_m: number(geometry, 'wire_diameter'),
          overall_m,
        },
      },
    },
    tape_m: number(geometry, 'radial_layer_pitch') - overall_m,
    tapeLayersInside: 1,
    margin_m: 0,
    tail_m: 0,
    former: {
      width_m: overall_m * (count + 1),
      height_m: 0.004,
      wall_m: 1e-4,
      flange_m: 1e-4,
      barrel: { section: 'round', diameter_m: 2 * geometry.layer_centre_radii![0]! - overall_m },
    },
    core: {
      height_m: slot.height_m,
      width_m: slot.outer_m - slot.inner_m,
      post: { section: 'round', diameter_m: 2 * slot.inner_m },
      coveredFraction: 1,
    },
  })
  if (!laid.ok) throw new Error(laid.errors.map((error) => error.message).join('; '))
  return laid.layout
}
