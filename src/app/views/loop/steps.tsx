import { memo, useMemo } from 'react'
import { stepPlot } from '../../../drawing/loop/step-plot.ts'
import { type CornerWithMargins, type StepKind, stepOf, stepPlan } from '../../../engine/supply/loop/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show } from '../../fields/show.ts'
import { loopStrings } from '../../strings/loop.ts'
import type { SwitchedTrace } from './prove-worker.ts'
import { hertz } from './words.ts'

const words = loopStrings.steps
const points = 300

const OneStep = memo(
  ({ corner, kind, trace }: { corner: CornerWithMargins; kind: StepKind; trace: SwitchedTrace | null }) => {
    const { plan, response } = useMemo(() => {
      const plan = stepPlan(corner, kind)
      return { plan, response: stepOf(corner, plan, points) }
    }, [corner, kind])
    if (!response.ok) return <p className="problem">{words.none(response.message)}</p>
    const node = stepPlot({
      title: words.title_(words[kind]),
      heading: words[kind],
      time_s: Float64Array.from({ length: points }, (_, k) => (k * plan.duration_s) / (points - 1)),
      deviation_V: response.deviation_V,
      switched: trace,
      showTime: (t) => show(t, 's', 2),
      showVoltage: (v) => show(Math.abs(v) < 1e-9 ? 0 : v, 'V', 2),
    })
    return (
      <figure>
        <Drawing node={node} />
        <figcaption>
          {words.says(show(response.peak_V, 'V', 2), show(response.settle_s, 's', 2))}{' '}
          {response.ringing &&
            response.ringing.damping < 0.7 &&
            words.rings(hertz(response.ringing.frequency_Hz), response.ringing.damping.toFixed(2))}
        </figcaption>
      </figure>
    )
  },
)

/** What the output does after the load or the bulk voltage steps. */
export const Steps = ({
  corner,
  traces,
}: {
  corner: CornerWithMargins
  traces: readonly (SwitchedTrace | null)[]
}) => (
  <section className="loop-steps">
    <h3>{words.title}</h3>
    <p className="lead">{words.lead}</p>
    <div className="loop-pair">
      <OneStep corner={corner} kind="load" trace={traces[0] ?? null} />
      <OneStep corner={corner} kind="mains" trace={traces[1] ?? null} />
    </div>
  </section>
)
