import { memo, useMemo } from 'react'
import { rippleBars } from '../../../drawing/loop/ripple-bars.ts'
import type { ConditionId } from '../../../engine/supply/condition.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { rippleOf } from '../../../engine/supply/loop/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show } from '../../fields/show.ts'
import { loopStrings } from '../../strings/loop.ts'
import { hertz } from './words.ts'

const words = loopStrings.ripple

/** Ripple at both output capacitors, and what other parts would leave of it. */
export const Ripple = memo(
  ({ evaluation, condition }: { evaluation: Evaluation; condition: ConditionId }) => {
    const ripple = useMemo(() => rippleOf(evaluation, condition), [evaluation, condition])
    if (ripple === null) return null
    const { need } = evaluation.design
    const volts = (v: number) => show(v, 'V', 2)
    const node = rippleBars({
      title: words.plot,
      heading: words.heading,
      lines: ripple.lines.map((l) => ({ ...l, label: hertz(l.frequency_Hz) })),
      allowed_Vpp: need.ripple_Vpp,
      words: { allowed: `${words.allowed} ${volts(need.ripple_Vpp)}` },
      showVoltage: volts,
    })
    return (
      <section className="loop-ripple">
        <h3>{words.title}</h3>
        <p className="lead">
          {words.says(volts(ripple.load_Vpp), volts(ripple.switching.load_Vpp), volts(ripple.mains_Vpp))}
          {!ripple.matters && ` ${words.charging}`}
        </p>
        <div className="loop-pair">
          <Drawing node={node} />
          <table className="budget">
            <thead>
              <tr>
                <th scope="col">{words.remedy}</th>
                <th scope="col">{words.atLoad}</th>
              </tr>
            </thead>
            <tbody>
              {ripple.remedies.map((r) => (
                <tr key={r.id}>
                  <th scope="row">{words.remedies[r.id]}</th>
                  <td>{volts(r.load_Vpp)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </section>
    )
  },
)
