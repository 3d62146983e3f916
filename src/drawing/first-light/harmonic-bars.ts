import { type Frame, grid, logScale, within } from '../loop/axes.ts'
import { el, group, type SvgNode } from '../svg/node.ts'

export interface HarmonicModel {
  readonly title: string
  readonly heading: string
  readonly harmonics: readonly {
    readonly order: number
    readonly current_Arms: number
    readonly classA_Arms: number
    readonly classD_Arms: number
  }[]
  readonly words: { readonly classA: string; readonly classD: string }
  readonly showCurrent: (current_A: number) => string
}

const width = 560
const height = 250
const frame: Frame = { left: 66, right: width - 12, top: 26, bottom: height - 24 }

/** Odd harmonics as bars on a logarithmic scale, each with its two limits as cross strokes. */
export function harmonicBars(m: HarmonicModel): SvgNode {
  const all = m.harmonics.flatMap((h) => [h.current_Arms, h.classA_Arms, h.classD_Arms])
  const top = 10 ** Math.ceil(Math.log10(Math.max(...all)))
  const bottom = top / 1e4
  const y = logScale(bottom, top, frame.bottom, frame.top, m.showCurrent)
  const room = (frame.right - frame.left) / m.harmonics.length
  const height_ = (value: number): number => within(y.at(Math.max(value, bottom)), frame)
  const stroke = (name: string, left: number, value: number): SvgNode =>
    el('line', {
      class: name,
      x1: left - 0.1 * room,
      x2: left + 0.7 * room,
      y1: height_(value),
      y2: height_(value),
    })
  return el(
    'svg',
    { class: 'plot harmonics', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': m.title },
    grid(frame, { at: () => 0, ticks: [] }, y, { xLabels: false, title: '' }),
    el('text', { class: 'plot-title', x: frame.left, y: 16 }, m.heading),
    group(
      { class: 'key' },
      el('line', { class: 'limit-a', x1: frame.right - 190, x2: frame.right - 166, y1: 12, y2: 12 }),
      el('text', { class: 'tick', x: frame.right - 160, y: 16 }, m.words.classA),
      el('line', { class: 'limit-d', x1: frame.right - 90, x2: frame.right - 66, y1: 12, y2: 12 }),
      el('text', { class: 'tick', x: frame.right - 60, y: 16 }, m.words.classD),
    ),
    ...m.harmonics.map((h, k) => {
      const left = frame.left + room * (k + 0.2)
      const at = height_(h.current_Arms)
      return group(
        {},
        el('rect', {
          class: 'bar-load',
          x: left,
          y: at,
          width: room * 0.6,
          height: frame.bottom - at,
        }),
        stroke('limit-a', left, h.classA_Arms),
        stroke('limit-d', left, h.classD_Arms),
        k % 2 === 0
          ? el(
              'text',
              { class: 'tick', x: left + room * 0.3, y: frame.bottom + 16, 'text-anchor': 'middle' },
              String(h.order),
            )
          : null,
      )
    }),
  )
}
