import { memo, useMemo } from 'react'
import { chart } from '../../../drawing/field/chart.ts'
import type { ConductorChoice } from '../../../engine/supply/transformer/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import type { Fields } from './use-fields.ts'

const words = transformerStrings.conductor

const isLength = (of: ConductorChoice['of']): boolean => of !== 'wires in parallel'
const bare = (of: ConductorChoice['of'], value: number): string =>
  String(Number((isLength(of) ? value * 1e3 : value).toPrecision(isLength(of) ? 2 : 3)))
const sized = (of: ConductorChoice['of'], value: number): string =>
  isLength(of) ? show(value, 'm', 2) : String(Number(value.toPrecision(2)))

const titleOf = ({ winding, of, fixed }: ConductorChoice): string =>
  words.titles[of](
    transformerStrings.windings[winding],
    of === 'strand diameter' ? String(fixed) : show(fixed, 'm', 3),
  )

const axisName = {
  'strand diameter': words.diameter,
  'wires in parallel': words.count,
  'foil thickness': words.thickness,
}

const Choice = ({ choice }: { choice: ConductorChoice }) => {
  const { curve, now, of } = choice
  const node = useMemo(() => {
    const lowest = Math.min(...curve.y, now.y)
    const most = Math.min(Math.max(...curve.y), 12 * lowest)
    return chart({
      title: titleOf(choice),
      x: {
        from: curve.x[0]!,
        to: curve.x[curve.x.length - 1]!,
        log: true,
        name: axisName[of],
        show: (value) => bare(of, value),
      },
      y: {
        from: lowest * 0.8,
        to: Math.max(most, now.y * 1.1),
        log: true,
        name: words.axis,
        show: (value) => show(value, 'W', 2),
      },
      curves: [{ name: words.curve, x: curve.x, y: curve.y, kind: 'main' }],
      marks: [
        { x: now.x, y: now.y, words: `${words.now} ${sized(of, now.x)}`, kind: 'now' },
        { x: curve.best.x, y: curve.best.y, words: `${words.best} ${sized(of, curve.best.x)}`, kind: 'best' },
      ],
    })
  }, [choice, curve, now, of])
  const gain = 1 - curve.best.y / now.y
  return (
    <figure>
      <h3>{titleOf(choice)}</h3>
      <Drawing node={node} />
      <figcaption>
        {gain > 0.05 ? words.gain(showPercent(gain), sized(of, curve.best.x)) : words.there}
      </figcaption>
    </figure>
  )
}

/** Copper loss of each winding against diameter, number and thickness, with the present choice and the least. */
export const ConductorPanel = memo(({ fields }: { fields: Fields }) => (
  <section data-stale={!fields.complete || undefined}>
    <h3>{words.title}</h3>
    <p className="lead">{words.lead}</p>
    <div className="charts">
      {fields.choices
        .filter(({ winding }) => winding !== 'bias')
        .map((choice) => (
          <Choice key={`${choice.winding}-${choice.of}`} choice={choice} />
        ))}
    </div>
  </section>
))
