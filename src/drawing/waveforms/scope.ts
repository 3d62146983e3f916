import { area, curve, type Frame, grid, niceStep, type Scale, straightScale } from '../loop/axes.ts'
import { el, group, type SvgNode } from '../svg/node.ts'
import { decimate } from './decimate.ts'

/** One waveform of a lane. With `low` it is a band between two courses. */
export interface LaneSeries {
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
  readonly low?: ArrayLike<number>
  readonly style: 'line' | 'before' | 'band'
}

/** One strip of the picture, with its own scale. */
export interface Lane {
  readonly id: string
  readonly heading: string
  readonly series: readonly LaneSeries[]
  /** Levels that mean something: a rating, a wanted value. */
  readonly levels?: readonly {
    readonly value: number
    readonly words: string
    readonly kind: 'rating' | 'wanted'
  }[]
  /** The scale begins at zero where nothing is below it. */
  readonly fromZero: boolean
  readonly show: (value: number) => string
}

export interface ScopeModel {
  /** Unlike that of any other picture on the page. */
  readonly id: string
  readonly title: string
  readonly from_s: number
  readonly to_s: number
  readonly lanes: readonly Lane[]
  readonly showTime: (time_s: number) => string
  /** Instants marked through all lanes. */
  readonly marks?: readonly { readonly time_s: number; readonly words: string }[]
  /** Width of the picture, as wide as the place it is shown in so that its letters keep their size. */
  readonly width: number
}

const scopeLeft = 62
const scopeRight = 10
const laneHeight = 104
const gap = 26
const top = 22
const foot = 24

export const scopeHeight = (lanes: number): number => top + lanes * (laneHeight + gap) - gap + foot

/** Where the lanes lie: frames, and the scale of time. */
export const scopeTime = (m: Pick<ScopeModel, 'from_s' | 'to_s' | 'width' | 'showTime'>): Scale =>
  straightScale(
    m.from_s,
    m.to_s,
    niceStep(m.to_s - m.from_s, m.width < 500 ? 4 : 8),
    scopeLeft,
    m.width - scopeRight,
    m.showTime,
  )

const frameOf = (m: ScopeModel, at: number): Frame => {
  const y = top + at * (laneHeight + gap)
  return { left: scopeLeft, right: m.width - scopeRight, top: y, bottom: y + laneHeight }
}

/** Waveforms one above the other on one axis of time, as a scope with many channels shows them. */
export function scope(m: ScopeModel): SvgNode {
  const x = scopeTime(m)
  const columns = Math.round(m.width)
  return el(
    'svg',
    {
      class: 'plot scope',
      viewBox: `0 0 ${m.width} ${scopeHeight(m.lanes.length)}`,
      role: 'img',
      'aria-label': m.title,
    },
    ...m.lanes.map((lane, at) => drawLane(m, lane, frameOf(m, at), x, columns, at === m.lanes.length - 1)),
    ...(m.marks ?? [])
      .filter(({ time_s }) => time_s >= m.from_s && time_s <= m.to_s)
      .map(({ time_s, words }) =>
        group(
          { class: 'instant' },
          el('line', {
            class: 'lead',
            x1: x.at(time_s),
            x2: x.at(time_s),
            y1: top,
            y2: scopeHeight(m.lanes.length) - foot,
          }),
          el(
            'text',
            { class: 'tick', x: x.at(time_s) + 4, y: scopeHeight(m.lanes.length) - foot - 5 },
            words,
          ),
        ),
      ),
  )
}

function drawLane(
  m: ScopeModel,
  lane: Lane,
  frame: Frame,
  x: Scale,
  columns: number,
  last: boolean,
): SvgNode {
  const thinned = lane.series.map((series) => ({
    series,
    high: decimate(series.x, series.y, m.from_s, m.to_s, columns),
    low: series.low ? decimate(series.x, series.low, m.from_s, m.to_s, columns) : null,
  }))
  let least = Number.POSITIVE_INFINITY
  let most = Number.NEGATIVE_INFINITY
  const see = (values: ArrayLike<number>) => {
    for (let i = 0; i < values.length; i++) {
      least = Math.min(least, values[i]!)
      most = Math.max(most, values[i]!)
    }
  }
  for (const { high, low } of thinned) {
    see(high.y)
    if (low) see(low.y)
  }
  if (!(most >= least)) [least, most] = [0, 1]
  if (lane.fromZero && least > 0) least = 0
  const span = Math.max(most - least, 1e-9, 1e-6 * Math.abs(most))
  // a level far above the waveform would flatten it
  for (const { value } of lane.levels ?? []) if (value < most + 0.6 * span) most = Math.max(most, value)
  const room = 0.08 * Math.max(most - least, 1e-9)
  const low = lane.fromZero && least >= 0 ? 0 : least - room
  const y = straightScale(
    low,
    most + room,
    niceStep(most + room - low, 4),
    frame.bottom,
    frame.top,
    lane.show,
  )
  const clip = `${m.id}-${lane.id}`
  return group(
    { class: 'lane', 'data-lane': lane.id },
    el(
      'clipPath',
      { id: clip },
      el('rect', {
        x: frame.left,
        y: frame.top,
        width: frame.right - frame.left,
        height: frame.bottom - frame.top,
      }),
    ),
    grid(frame, x, y, { xLabels: last, title: '' }),
    group(
      { 'clip-path': `url(#${clip})` },
      ...(lane.levels ?? [])
        .filter(({ value }) => value <= most + room && value >= low)
        .flatMap(({ value, words, kind }) => [
          el('line', {
            class: kind === 'rating' ? 'datum' : 'lead',
            x1: frame.left,
            x2: frame.right,
            y1: y.at(value),
            y2: y.at(value),
          }),
          el(
            'text',
            {
              class: 'tick',
              x: frame.right - 5,
              y: y.at(value) < frame.top + 20 ? y.at(value) + 13 : y.at(value) - 4,
              'text-anchor': 'end',
            },
            words,
          ),
        ]),
      ...thinned.map(({ series, high, low: under }) =>
        under
          ? area('band', high.x, sampled(under, high.x), high.y, x, y, frame)
          : curve(series.style, high.x, high.y, x, y, frame),
      ),
    ),
    el('text', { class: 'plot-title', x: frame.left, y: frame.top - 6 }, lane.heading),
  )
}

/** Both edges of a band at the same instants: the lower one as the least of its stripe. */
function sampled(
  points: { readonly x: Float64Array; readonly y: Float64Array },
  at: Float64Array,
): Float64Array {
  const out = new Float64Array(at.length)
  let i = 0
  for (let k = 0; k < at.length; k++) {
    while (i < points.x.length - 1 && points.x[i]! < at[k]!) i++
    out[k] = points.y[i] ?? 0
  }
  return out
}
