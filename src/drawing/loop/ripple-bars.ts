import { el, group, type SvgNode } from '../svg/node.ts'
import { type Frame, grid, logScale, within } from './axes.ts'

export interface RippleModel {
  readonly title: string
  readonly heading: string
  readonly lines: readonly { readonly label: string; readonly first_Vpp: number; readonly load_Vpp: number }[]
  /** What is allowed at the load, V peak to peak. */
  readonly allowed_Vpp: number
  readonly words: { readonly allowed: string }
  readonly showVoltage: (voltage_V: number) => string
}

const width = 420
const height = 230
const frame: Frame = { left: 60, right: width - 10, top: 8, bottom: height - 24 }

/** Ripple by frequency: two bars each, at the first capacitor and at the load, on a logarithmic scale. */
export function rippleBars(m: RippleModel): SvgNode {
  const most = Math.max(m.allowed_Vpp, ...m.lines.map((l) => Math.max(l.first_Vpp, l.load_Vpp)))
  const top = 10 ** Math.ceil(Math.log10(most) + 0.05)
  const bottom = top / 1e4
  const y = logScale(bottom, top, frame.bottom, frame.top, m.showVoltage)
  const room = (frame.right - frame.left) / m.lines.length
  const bar = (name: string, left: number, value: number): SvgNode => {
    const at = within(y.at(Math.max(value, bottom)), frame)
    return el('rect', { class: name, x: left, y: at, width: room * 0.3, height: frame.bottom - at })
  }
  const limit = y.at(m.allowed_Vpp)
  return el(
    'svg',
    { class: 'plot ripple', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': m.title },
    grid(frame, { at: () => 0, ticks: [] }, y, { xLabels: false, title: m.heading }),
    ...m.lines.map((l, k) => {
      const left = frame.left + room * (k + 0.18)
      return group(
        {},
        bar('bar-first', left, l.first_Vpp),
        bar('bar-load', left + room * 0.33, l.load_Vpp),
        el(
          'text',
          { class: 'tick', x: left + room * 0.32, y: frame.bottom + 16, 'text-anchor': 'middle' },
          l.label,
        ),
      )
    }),
    el('line', { class: 'allowed', x1: frame.left, x2: frame.right, y1: limit, y2: limit }),
    el('text', { class: 'mark', x: frame.right - 6, y: limit - 5, 'text-anchor': 'end' }, m.words.allowed),
  )
}
