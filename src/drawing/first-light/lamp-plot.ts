import { curve, type Frame, grid, niceStep, straightScale, within } from '../loop/axes.ts'
import { el, group, type SvgNode } from '../svg/node.ts'

export interface LampPlotModel {
  readonly title: string
  readonly bulkHeading: string
  readonly filamentHeading: string
  readonly time_s: ArrayLike<number>
  readonly bulk_V: ArrayLike<number>
  readonly filament_K: ArrayLike<number>
  /** Bulk voltage at which the chip starts. */
  readonly start_V: number
  readonly startWords: string
  /** Temperatures at which the filament changes its look, with the look above each. */
  readonly looks: readonly { readonly from_K: number; readonly words: string }[]
  readonly showTime: (time_s: number) => string
  readonly showVoltage: (voltage_V: number) => string
  readonly showTemperature: (temperature_K: number) => string
}

const width = 560
const bulkFrame: Frame = { left: 66, right: width - 12, top: 10, bottom: 150 }
const glowFrame: Frame = { left: 66, right: width - 12, top: 166, bottom: 316 }
const height = 342

/** Bulk voltage and filament temperature over the seconds after switch-on, one above the other. */
export function lampPlot(m: LampPlotModel): SvgNode {
  const end_s = m.time_s[m.time_s.length - 1]!
  let most_V = m.start_V
  let most_K = 1000
  for (let k = 0; k < m.time_s.length; k++) {
    most_V = Math.max(most_V, m.bulk_V[k]!)
    most_K = Math.max(most_K, m.filament_K[k]!)
  }
  const x = straightScale(0, end_s, niceStep(end_s, 5), bulkFrame.left, bulkFrame.right, m.showTime)
  const bulk = straightScale(
    0,
    1.12 * most_V,
    niceStep(1.12 * most_V, 4),
    bulkFrame.bottom,
    bulkFrame.top,
    m.showVoltage,
  )
  const top_K = 1.12 * most_K
  const glow = straightScale(0, top_K, niceStep(top_K, 4), glowFrame.bottom, glowFrame.top, m.showTemperature)
  const start = bulk.at(m.start_V)
  return el(
    'svg',
    { class: 'plot lamp', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': m.title },
    grid(bulkFrame, x, bulk, { xLabels: false, title: m.bulkHeading }),
    el('line', { class: 'datum', x1: bulkFrame.left, x2: bulkFrame.right, y1: start, y2: start }),
    el('text', { class: 'mark', x: bulkFrame.right - 6, y: start - 5, 'text-anchor': 'end' }, m.startWords),
    curve('line', m.time_s, m.bulk_V, x, bulk, bulkFrame),
    grid(glowFrame, x, glow, { xLabels: true, title: '' }),
    ...m.looks.map(({ from_K }, k) => {
      const floor = within(glow.at(from_K), glowFrame)
      const roof = within(glow.at(m.looks[k + 1]?.from_K ?? top_K), glowFrame)
      return el('rect', {
        class: `glow is-step-${k + 1}`,
        x: glowFrame.left,
        y: roof,
        width: glowFrame.right - glowFrame.left,
        height: Math.max(0, floor - roof),
      })
    }),
    group(
      {},
      ...m.looks
        .filter(({ from_K }) => from_K < 0.97 * top_K)
        .map(({ from_K, words }) =>
          el(
            'text',
            {
              class: 'mark',
              x: glowFrame.right - 6,
              y: within(glow.at(from_K), glowFrame) - 4,
              'text-anchor': 'end',
            },
            words,
          ),
        ),
    ),
    curve('filament', m.time_s, m.filament_K, x, glow, glowFrame),
    el('text', { class: 'plot-title', x: glowFrame.left + 6, y: glowFrame.top + 15 }, m.filamentHeading),
  )
}
