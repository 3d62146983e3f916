import {
  area,
  curve,
  type Frame,
  grid,
  logScale,
  niceStep,
  type Scale,
  straightScale,
  within,
} from '../loop/axes.ts'
import { el, group, type SvgNode } from '../svg/node.ts'

/** One curve of a chart. */
export interface Line {
  readonly name: string
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
  readonly kind: 'line' | 'second' | 'third' | 'fourth' | 'before'
}

/** A level worth a name: a straight line across, or upright. */
export interface Level {
  readonly at: number
  readonly words: string
  readonly along: 'x' | 'y'
}

export interface LinesModel {
  readonly title: string
  readonly heading: string
  readonly lines: readonly Line[]
  readonly band?: {
    readonly x: ArrayLike<number>
    readonly low: ArrayLike<number>
    readonly high: ArrayLike<number>
  }
  readonly levels: readonly Level[]
  readonly x: { readonly log?: boolean; readonly show: (value: number) => string }
  readonly y: { readonly from?: number; readonly to?: number; readonly show: (value: number) => string }
}

const width = 560
const height = 280
const frame: Frame = { left: 66, right: width - 12, top: 10, bottom: height - 26 }

const ends = (lists: readonly ArrayLike<number>[]): readonly [low: number, high: number] => {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const list of lists)
    for (let k = 0; k < list.length; k++) {
      low = Math.min(low, list[k]!)
      high = Math.max(high, list[k]!)
    }
  return [low, high]
}

/** Where a curve's name stands: at its right end, pushed down past names that already stand there. */
function namesOf(m: LinesModel, y: Scale): SvgNode[] {
  const places: number[] = []
  return m.lines
    .map((line) => ({ line, at: within(y.at(line.y[line.y.length - 1]!), frame) }))
    .sort((a, b) => a.at - b.at)
    .map(({ line, at }) => {
      const last = places[places.length - 1] ?? frame.top - 16
      const place = Math.min(frame.bottom - 6, Math.max(at - 6, last + 15))
      places.push(place)
      return el(
        'text',
        { class: `mark of-${line.kind}`, x: frame.right - 6, y: place, 'text-anchor': 'end' },
        line.name,
      )
    })
}

/** Curves over one pair of axes, the horizontal one straight or logarithmic, with named levels. */
export function lines(m: LinesModel): SvgNode {
  const [xLow, xHigh] = ends(m.lines.map((l) => l.x))
  const upright = m.levels.filter((l) => l.along === 'y').map((l) => l.at)
  const across = m.levels.filter((l) => l.along === 'x').map((l) => l.at)
  const [yLow, yHigh] = ends([...m.lines.map((l) => l.y), across, m.band?.high ?? [], m.band?.low ?? []])
  const room = 0.08 * Math.max(yHigh - yLow, 1e-12)
  const from = m.y.from ?? yLow - room
  const to = m.y.to ?? yHigh + room
  const x = m.x.log
    ? logScale(xLow, xHigh, frame.left, frame.right, m.x.show)
    : straightScale(
        Math.min(xLow, ...upright),
        xHigh,
        niceStep(xHigh - Math.min(xLow, ...upright), 5),
        frame.left,
        frame.right,
        m.x.show,
      )
  const y = straightScale(from, to, niceStep(to - from, 5), frame.bottom, frame.top, m.y.show)
  return el(
    'svg',
    { class: 'plot lines', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': m.title },
    grid(frame, x, y, { xLabels: true, title: m.heading }),
    m.band ? area('band', m.band.x, m.band.low, m.band.high, x, y, frame) : null,
    ...m.levels.map((level) => levelOf(level, x, y)),
    ...m.lines.map((l) => curve(l.kind, l.x, l.y, x, y, frame)),
    group({ class: 'names' }, ...(m.lines.length > 1 ? namesOf(m, y) : [])),
  )
}

function levelOf({ at, words, along }: Level, x: Scale, y: Scale): SvgNode {
  if (along === 'x') {
    const place = within(y.at(at), frame)
    return group(
      {},
      el('line', { class: 'datum', x1: frame.left, x2: frame.right, y1: place, y2: place }),
      el('text', { class: 'mark', x: frame.left + 6, y: place - 5 }, words),
    )
  }
  const place = x.at(at)
  const late = place > frame.right - 120
  return group(
    {},
    el('line', { class: 'datum', x1: place, x2: place, y1: frame.top, y2: frame.bottom }),
    el(
      'text',
      {
        class: 'mark',
        x: late ? place - 5 : place + 5,
        y: frame.bottom - 8,
        'text-anchor': late ? 'end' : 'start',
      },
      words,
    ),
  )
}
