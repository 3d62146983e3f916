import { fieldWidth_m, postDistance_m, type StackLayout, wirePositions } from '../stack/index.ts'
import { wireHeight_m } from '../wire/index.ts'
import type { Conductor } from './conductors.ts'
import type { Band } from './slot.ts'
import type { Row, WallGap, WindowModel } from './types.ts'

/** A window model with what its rows are made of, for loss. Row `layer` is an index into the layout, −1: shield. */
export interface SectionModel {
  readonly model: WindowModel
  readonly conductors: readonly Conductor[]
  readonly length_m: readonly number[]
  readonly layer: readonly number[]
  /** Part of every turn that this section stands for. */
  readonly part: number
}

const squareSide = Math.sqrt(Math.PI) / 2
/** Free space beside the post where a turn leaves the core, in window widths, and its height in window heights. */
const openWidths = 3
const openHeights = 2

const harmonicsFor = (height_m: number, finest_m: number): number =>
  Math.max(60, Math.min(240, Math.ceil((2.5 * height_m) / finest_m)))

/**
 * Sections of a wound core: the one inside the core, and the one where turns leave it and only the post stands beside
 * them. A rectangular barrel is taken as the round one of equal circumference; turns then have their true length, and
 * distances to the post and between layers their true size. Shields are foils without net current.
 */
export const sectionModels = (layout: StackLayout, gaps: readonly WallGap[]): SectionModel[] => {
  const { input, windings, barrelRadius_m } = layout
  const inner_m = barrelRadius_m - postDistance_m(input.core, input.former)
  const bands: Band[] = []
  const rows: Row[] = []
  const conductors: Conductor[] = []
  const length_m: number[] = []
  const layerOf: number[] = []
  let finest_m = input.core.height_m

  const addFoil = (
    centre_m: number,
    thick_m: number,
    width_m: number,
    winding: number,
    current: number,
  ): void => {
    bands.push({ bottom_m: centre_m - thick_m / 2, top_m: centre_m + thick_m / 2 })
    rows.push({ band: bands.length - 1, winding, z_m: Float64Array.of(0), width_m, current })
    conductors.push({ kind: 'foil', thickness_m: thick_m })
    length_m.push(2 * Math.PI * centre_m)
    finest_m = Math.min(finest_m, input.core.height_m / 80)
  }

  layout.layers.forEach((layer, index) => {
    const { wire, inHand } = input.wires[layer.winding]!
    const winding = windings.indexOf(layer.winding)
    const centre_m = barrelRadius_m + (layer.bottom_m + layer.top_m) / 2
    if (wire.construction === 'foil') {
      for (let f = 0; f < inHand; f++) {
        const offset_m = (f - (inHand - 1) / 2) * wireHeight_m(wire)
        addFoil(centre_m + offset_m, wire.thickness_m, wire.width_m, winding, 1 / inHand)
        layerOf.push(index)
      }
      return
    }
    const side_m = squareSide * (wire.construction === 'litz' ? wire.overall_m : wire.bare_m)
    const positions = wirePositions(layout, layer)
    bands.push({ bottom_m: centre_m - side_m / 2, top_m: centre_m + side_m / 2 })
    rows.push({
      band: bands.length - 1,
      winding,
      z_m: Float64Array.from({ length: layer.turns * inHand }, (_, i) => positions[2 * i + 1]!),
      width_m: side_m,
      current: 1 / inHand,
    })
    conductors.push(
      wire.construction === 'litz'
        ? {
            kind: 'litz',
            strand_m: wire.strand_m,
            strands: wire.strands,
            bundle_m: wire.overall_m,
            lay: wire.lay,
          }
        : { kind: 'round', diameter_m: wire.bare_m },
    )
    length_m.push(layer.meanTurn_m)
    layerOf.push(index)
    finest_m = Math.min(finest_m, side_m)
  })
  for (const shield of layout.shields) {
    addFoil(
      barrelRadius_m + (shield.bottom_m + shield.top_m) / 2,
      shield.top_m - shield.bottom_m,
      shield.axialEnd_m - shield.axialStart_m,
      0,
      0,
    )
    layerOf.push(-1)
  }

  const turns = windings.map((winding) =>
    layout.sections.reduce((sum, section) => sum + (section.winding === winding ? section.turns : 0), 0),
  )
  const { height_m, coveredFraction } = input.core
  const width_m = fieldWidth_m(layout)
  const make = (heights: number, widths: number, part: number): SectionModel => ({
    model: {
      slot: {
        inner_m,
        outer_m: inner_m + widths * width_m,
        height_m: heights * height_m,
        planar: false,
      },
      bands,
      rows,
      turns,
      gaps: widths === 1 ? gaps : gaps.map((gap) => ({ ...gap, wall: 'post' as const })),
      harmonics: harmonicsFor(heights * height_m, finest_m),
    },
    conductors,
    length_m,
    layer: layerOf,
    part,
  })
  const sections: SectionModel[] = []
  if (coveredFraction > 0) sections.push(make(1, 1, coveredFraction))
  if (coveredFraction < 1) sections.push(make(openHeights, openWidths, 1 - coveredFraction))
  return sections
}
