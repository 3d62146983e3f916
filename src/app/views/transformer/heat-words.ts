import type { LayerBar } from '../../../drawing/field/window-map.ts'
import type { StackLayout } from '../../../engine/magnetics/stack/index.ts'
import type { CopperHeat } from '../../../engine/supply/transformer/index.ts'
import { sectionNames } from '../../../engine/supply/transformer/section-names.ts'
import { show } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'

/** One layer of copper with its heat, numbered from the former outward. */
export interface LayerRow {
  readonly layer: number
  readonly name: string
  readonly turns: number
  readonly dc_W: number
  readonly ac_W: number
}

/** Layers in the order in which they are wound, each with the short name of its winding part. */
export const layerRows = (layout: StackLayout, copper: CopperHeat): LayerRow[] => {
  const names = sectionNames(layout.sections)
  const nameOf = new Map(layout.sections.map((section, i) => [section.entry, names[i]!]))
  return copper.layers.flatMap((heat): LayerRow[] => {
    const layer = layout.layers[heat.layer]
    if (layer === undefined) return []
    return [
      {
        layer: heat.layer + 1,
        name: nameOf.get(layer.entry) ?? '',
        turns: layer.turns,
        dc_W: heat.dc_W,
        ac_W: heat.ac_W,
      },
    ]
  })
}

export const layerBars = (rows: readonly LayerRow[]): LayerBar[] =>
  rows.map(({ layer, name, dc_W, ac_W }) => ({
    layer,
    loss_W: dc_W + ac_W,
    words: `${name}, ${show(dc_W + ac_W, 'W', 2)}`,
  }))

export const heatWords = ({ turns, dc_W, ac_W }: LayerRow): string =>
  transformerStrings.layers.heat(
    transformerStrings.order.turns(turns),
    show(dc_W + ac_W, 'W'),
    show(ac_W, 'W'),
  )
