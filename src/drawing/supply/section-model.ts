import { type StackLayout, wirePositions } from '../../engine/magnetics/stack/index.ts'
import { wireHeight_m } from '../../engine/magnetics/wire/index.ts'
import { sectionNames } from '../../engine/supply/transformer/section-names.ts'
import type { SectionBand, SectionModel } from '../winding/section.ts'

const windingOf = (name: string): SectionBand['winding'] =>
  name === 'primary' || name === 'secondary' || name === 'bias' ? name : 'none'

/** Bands of the winding window from a laid-out stack, numbered as on the winding sheet. */
export function sectionModel(
  layout: StackLayout,
  gap: { readonly place: 'post' | 'all-legs'; readonly length_m: number },
  title: string,
): SectionModel {
  const { former, margin_m } = layout.input
  const half = former.width_m / 2
  const names = sectionNames(layout.sections)
  const bands: SectionBand[] = []
  let copper = 0
  layout.sections.forEach((section, step) => {
    const layers = layout.layers.filter((layer) => layer.entry === section.entry)
    layers.forEach((layer, index) => {
      const wire = layout.input.wires[layer.winding]!.wire
      const foil = wire.construction === 'foil'
      const pairs = wirePositions(layout, layer)
      const centres: [number, number][] = []
      for (let i = 0; i < pairs.length; i += 2) centres.push([pairs[i + 1]! + half, pairs[i]!])
      const first = index === 0
      const hand = layer.inHand > 1 ? `, ${layer.inHand} in hand` : ''
      bands.push({
        kind: foil ? 'foil' : 'wire',
        winding: windingOf(layer.winding),
        callout: first ? `${names[step]}  ${section.turns} turns${hand}` : '',
        layer: ++copper,
        from_m: layer.bottom_m,
        to_m: layer.top_m,
        start_m: layer.axialStart_m + half,
        end_m: layer.axialEnd_m + half,
        wire_m: wireHeight_m(wire),
        centres_m: centres,
      })
    })
  })
  for (const tape of layout.tapes)
    bands.push({
      kind: 'tape',
      winding: 'none',
      callout: tape.between === 'entries' ? `tape × ${tape.layers}` : '',
      from_m: tape.bottom_m,
      to_m: tape.top_m,
      start_m: 0,
      end_m: former.width_m,
    })
  for (const shield of layout.shields)
    bands.push({
      kind: 'shield',
      winding: 'none',
      callout: `shield to pin ${shield.pin}`,
      from_m: shield.bottom_m,
      to_m: shield.top_m,
      start_m: shield.axialStart_m + half,
      end_m: shield.axialEnd_m + half,
    })
  bands.sort((a, b) => a.from_m - b.from_m)
  return {
    title,
    width_m: former.width_m,
    height_m: layout.windowHeight_m,
    wall_m: former.wall_m,
    flange_m: former.flange_m,
    margin_m,
    gap,
    bands,
    build_m: layout.build_m,
  }
}
