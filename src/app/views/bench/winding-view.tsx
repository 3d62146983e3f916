import { memo, useMemo } from 'react'
import { formerModel } from '../../../drawing/supply/former-model.ts'
import { sectionModel } from '../../../drawing/supply/section-model.ts'
import { formerView } from '../../../drawing/winding/former.ts'
import { windingSection } from '../../../drawing/winding/section.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { benchStrings } from '../../strings/bench.ts'

const words = benchStrings.winding

/** Section of the winding window true to scale, and the former's pins from both sides. */
const windingFigures = (design: Design) => {
  const { transformer } = design
  const { layout } = transformer.coil
  const former = formerModel(design)
  return {
    section: windingSection(
      sectionModel(
        layout,
        { place: transformer.gapPlace, length_m: transformer.gap_m },
        words.title(design.supply.name),
      ),
    ),
    above: formerView(former, 'above'),
    pins: formerView(former, 'pins'),
  }
}

/** The former from above and from the pin side: which end goes to which pin. */
export const FormerViews = memo(({ design }: { design: Design }) => {
  const figures = useMemo(() => windingFigures(design), [design])
  return (
    <div className="formers">
      <figure>
        <Drawing node={figures.above} />
      </figure>
      <figure>
        <Drawing node={figures.pins} />
        <figcaption>{words.pins}</figcaption>
      </figure>
    </div>
  )
})
