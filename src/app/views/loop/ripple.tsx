import { memo, useMemo } from 'react'
import { rippleBars } from '../../../drawing/loop/ripple-bars.ts'
import type { ConditionId } from '../../../engine/supply/condition.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { type RippleRemedy, rippleOf } from '../../../engine/supply/loop/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show } from '../../fields/show.ts'
import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { loopStrings } from '../../strings/loop.ts'
import { hertz } from './words.ts'

const words = loopStrings.ripple

/** What a remedy is made of: parts of the drawer, or turns on the ring that is there. */
const partsOf = ({ parts, turns }: RippleRemedy): string =>
  [
    ...parts.map(({ part, have }) => `${part.name}: ${have ? words.have : words.buy}`),
    ...(turns === null ? [] : [words.turns(turns)]),
  ].join('; ')

/** Its price, and what one unit of it takes off the ripple. */
const priceOf = ({ price, load_Vpp }: RippleRemedy, now_Vpp: number): string => {
  if (price === null) return ''
  const saved_V = now_Vpp - load_Vpp
  return price > 0 && saved_V > 0 ? words.worth(price, show(saved_V / price, 'V', 2)) : String(price)
}

/** Ripple at both output capacitors, and what other parts would leave of it. */
export const Ripple = memo(
  ({ evaluation, condition }: { evaluation: Evaluation; condition: ConditionId }) => {
    const drawer = useStore(desk, (d) => d.drawer)?.history.value ?? null
    const ripple = useMemo(() => rippleOf(evaluation, condition, drawer), [evaluation, condition, drawer])
    if (ripple === null) return null
    const { need } = evaluation.design
    const priced = ripple.remedies.some((r) => r.price !== null && r.price > 0)
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
                {priced && <th scope="col">{words.price}</th>}
              </tr>
            </thead>
            <tbody>
              {ripple.remedies.map((r) => (
                <tr key={r.id}>
                  <th scope="row">
                    {words.remedies[r.id]}
                    <small className="loop-parts">{partsOf(r)}</small>
                  </th>
                  <td>{volts(r.load_Vpp)}</td>
                  {priced && <td>{priceOf(r, ripple.switching.load_Vpp)}</td>}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </section>
    )
  },
)
