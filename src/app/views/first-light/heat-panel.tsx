import { memo, useMemo } from 'react'
import { lines } from '../../../drawing/first-light/lines.ts'
import { firstLightStyle } from '../../../drawing/first-light/style.ts'
import { loopStyle } from '../../../drawing/loop/style.ts'
import { heatCheck, type ThermometerSpot, thermometerSpots } from '../../../engine/bench/index.ts'
import type { LogEntry } from '../../../engine/supply/bench-log.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { show } from '../../fields/show.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import type { WarmCurves } from './messages.ts'

const words = firstLightStrings

const kinds = { switcher: 'line', transformer: 'second', rectifier: 'third', clamp: 'fourth' } as const

/** Temperatures over time from a cold start, with when they have settled. */
export const WarmPanel = memo(({ warm }: { warm: WarmCurves }) => {
  adoptStyle(loopStyle)
  adoptStyle(firstLightStyle)
  const node = useMemo(
    () =>
      lines({
        title: words.warm.plot(show(warm.settle_s, 's', 2)),
        heading: words.warm.heading,
        lines: thermometerSpots.map((spot) => ({
          name: words.warm.spots[spot],
          x: warm.time_s.map((t) => t / 60),
          y: warm.curves[spot],
          kind: kinds[spot],
        })),
        levels: [{ at: warm.settle_s / 60, words: words.warm.settled, along: 'y' }],
        x: { show: (t) => `${Math.round(t)} min` },
        y: { show: (t) => show(t, '°C') },
      }),
    [warm],
  )
  const at = (minutes: number): string => {
    const k = warm.time_s.findIndex((t) => t >= 60 * minutes)
    return thermometerSpots
      .map((spot) => `${words.warm.spots[spot]} ${show(warm.curves[spot][k] ?? Number.NaN, '°C')}`)
      .join(', ')
  }
  return (
    <section className="fl-panel">
      <h4>{words.warm.title}</h4>
      <figure>
        <div className="fl-chart">
          <Drawing node={node} />
        </div>
        <figcaption>
          {words.warm.after(5, at(5))} {words.warm.caution}
        </figcaption>
      </figure>
    </section>
  )
})

/** Last value in the log of the first of these checks that was read. */
const lastOf = (log: readonly LogEntry[], names: readonly string[]): number | null => {
  for (const name of names) {
    const entry = log.findLast((e) => e.check === name && e.value !== null)
    if (entry) return entry.value
  }
  return null
}

/** Loss and temperatures that were read against what they should be, spot by spot. */
export const HeatCheckPanel = ({ evaluation, log }: { evaluation: Evaluation; log: readonly LogEntry[] }) => {
  const { need } = evaluation.design
  const input_W = lastOf(log, ['line-100.input'])
  const output_V = lastOf(log, ['soak.output', 'line-100.output']) ?? need.output_V
  const temperature_C: Partial<Record<ThermometerSpot, number>> = {}
  for (const spot of thermometerSpots) {
    const read = lastOf(log, [`soak.${spot}-C`])
    if (read !== null) temperature_C[spot] = read
  }
  const spots = Object.keys(temperature_C).length
  const found =
    input_W === null || spots === 0
      ? null
      : heatCheck(evaluation, {
          input_W,
          output_W: output_V * need.output_A,
          ambient_C: need.ambient_C,
          temperature_C,
        })
  return (
    <section className="fl-panel">
      <h4>{words.heat.title}</h4>
      <p className="lead">{found === null ? words.heat.none : words.heat.lead}</p>
      {found && !found.ok && <p className="problem">{found.message}</p>}
      {found?.ok && (
        <>
          <p role="status">
            {words.heat.lossIs(show(found.loss_W, 'W'), show(found.expectedLoss_W, 'W'))}{' '}
            <b>{found.outOfLine ? words.heat.out(found.outOfLine.text) : words.heat.inLine}</b>
          </p>
          <table className="reading-table">
            <thead>
              <tr>
                <th scope="col">{words.heat.spot}</th>
                <th scope="col">{words.heat.rise}</th>
                <th scope="col">{words.heat.expected}</th>
                <th scope="col">{words.heat.excess}</th>
              </tr>
            </thead>
            <tbody>
              {found.items
                .filter((item) => item.spot !== 'elsewhere')
                .map((item) => (
                  <tr key={item.spot}>
                    <th scope="row">{words.warm.spots[item.spot as ThermometerSpot]}</th>
                    <td>{show(item.rise_K, 'K')}</td>
                    <td>{show(item.expectedRise_K, 'K')}</td>
                    <td>{show(item.excess_W, 'W', 2)}</td>
                  </tr>
                ))}
            </tbody>
          </table>
        </>
      )}
    </section>
  )
}
