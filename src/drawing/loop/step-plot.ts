import { el, type SvgNode } from '../svg/node.ts'
import { curve, type Frame, grid, niceStep, straightScale } from './axes.ts'

export interface StepModel {
  readonly title: string
  readonly heading: string
  /** Change of the output in volts over time from the step, by the linear model. */
  readonly time_s: ArrayLike<number>
  readonly deviation_V: ArrayLike<number>
  /** The same by the switched circuit, where it was run. */
  readonly switched: { readonly time_s: ArrayLike<number>; readonly deviation_V: ArrayLike<number> } | null
  readonly showTime: (time_s: number) => string
  readonly showVoltage: (voltage_V: number) => string
}

const width = 420
const height = 210
const frame: Frame = { left: 60, right: width - 10, top: 8, bottom: height - 24 }

/** One step response: deviation of the output over time. */
export function stepPlot(m: StepModel): SvgNode {
  const from = Math.min(0, m.switched?.time_s[0] ?? 0)
  const to = m.time_s[m.time_s.length - 1]!
  let low = 0
  let high = 0
  for (const list of [m.deviation_V, m.switched?.deviation_V ?? []])
    for (let k = 0; k < list.length; k++) {
      low = Math.min(low, list[k]!)
      high = Math.max(high, list[k]!)
    }
  const span = Math.max(high - low, 1e-4)
  low -= 0.1 * span
  high += 0.1 * span
  const x = straightScale(from, to, niceStep(to - from, 5), frame.left, frame.right, m.showTime)
  const y = straightScale(low, high, niceStep(high - low, 4), frame.bottom, frame.top, m.showVoltage)
  return el(
    'svg',
    { class: 'plot step', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': m.title },
    grid(frame, x, y, {
      xLabels: true,
      title: m.heading,
      titleAt: -low > high ? 'bottom-right' : 'top-right',
    }),
    el('line', { class: 'datum', x1: frame.left, x2: frame.right, y1: y.at(0), y2: y.at(0) }),
    m.switched && curve('switched', m.switched.time_s, m.switched.deviation_V, x, y, frame),
    curve('line', m.time_s, m.deviation_V, x, y, frame),
  )
}
