import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'
import { type Axis, along, ticks } from './axis.ts'

/** One line of a chart. */
export interface ChartCurve {
  readonly name: string
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
  readonly kind: 'main' | 'second' | 'faint'
}

/** A point or an upright line worth a name. */
export interface ChartMark {
  readonly x: number
  /** Null: an upright line over the whole height. */
  readonly y: number | null
  readonly words: string
  readonly kind: 'now' | 'measured' | 'best' | 'limit'
}

export interface ChartModel {
  readonly title: string
  readonly x: Axis & { readonly name: string; readonly show: (value: number) => string }
  readonly y: Axis & { readonly name: string; readonly show: (value: number) => string }
  readonly curves: readonly ChartCurve[]
  readonly band?: {
    readonly x: ArrayLike<number>
    readonly low: ArrayLike<number>
    readonly high: ArrayLike<number>
  }
  readonly marks: readonly ChartMark[]
}

const width = 460
const height = 230
const left = 62
const right = 18
const top = 34
const bottom = 42

const held = (value: number) => Math.max(-0.02, Math.min(1.02, value))
const isWithin = (place: number) => place > -0.02 && place < 1.02

/** Marks' words pushed apart in rows above the chart, so that none overlaps another. */
function rowsOf(places: readonly { readonly x: number; readonly length: number }[]): number[] {
  const ends: number[] = []
  return places.map(({ x, length }) => {
    let row = ends.findIndex((end) => end < x - length / 2 - 6)
    if (row < 0) row = ends.length
    ends[row] = x + length / 2
    return row
  })
}

/** Curves over a pair of axes with named marks; straight or logarithmic. */
export function chart(model: ChartModel): SvgNode {
  const inner = { w: width - left - right, h: height - top - bottom }
  const px = (value: number) => left + held(along(model.x, value)) * inner.w
  const py = (value: number) => top + (1 - held(along(model.y, value))) * inner.h
  const path = (x: ArrayLike<number>, y: ArrayLike<number>): string => {
    let open = false
    return Array.from(x, (value, i) => {
      const inside = isWithin(along(model.x, value)) && isWithin(along(model.y, y[i]!))
      const step = inside ? `${open ? 'L' : 'M'}${px(value).toFixed(1)} ${py(y[i]!).toFixed(1)}` : ''
      open = inside
      return step
    }).join('')
  }
  const edge = (x: readonly number[], y: readonly number[]): string =>
    x.map((value, i) => `${px(value).toFixed(1)} ${py(y[i]!).toFixed(1)}`).join('L')
  const { band } = model
  const ordered = [...model.marks].sort((a, b) => a.x - b.x)
  const centre = (mark: ChartMark) => {
    const long = mark.words.length * 6.1
    return { x: Math.max(left + long / 2, Math.min(width - long / 2, px(mark.x))), length: long }
  }
  const rows = rowsOf(ordered.map(centre))
  const extra = Math.max(0, ...rows) * 15
  const wordsAt = (mark: number) => top - 8 - rows[mark]! * 15
  const spoken = model.marks.map(
    ({ words, x, y }) => `${words} at ${model.x.show(x)}${y === null ? '' : `, ${model.y.show(y)}`}`,
  )
  return el(
    'svg',
    {
      class: 'chart',
      viewBox: `0 ${-extra} ${width} ${height + extra}`,
      role: 'img',
      'aria-label': `${model.title}. ${model.curves.map((c) => c.name).join(', ')}. ${spoken.join('; ')}.`,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    ...ticks(model.y, 4).flatMap((value) => [
      el('line', { class: 'chart-grid', x1: left, x2: width - right, y1: py(value), y2: py(value) }),
      label([left - 6, py(value) + 4], model.y.show(value), 'chart-tick', 'end'),
    ]),
    ...ticks(model.x, 6).flatMap((value) => [
      el('line', { class: 'chart-grid', x1: px(value), x2: px(value), y1: top, y2: height - bottom }),
      label([px(value), height - bottom + 16], model.x.show(value), 'chart-tick', 'middle'),
    ]),
    band
      ? el('path', {
          class: 'chart-band',
          d: `M${edge(Array.from(band.x), Array.from(band.high))}L${edge(Array.from(band.x).reverse(), Array.from(band.low).reverse())}Z`,
        })
      : null,
    ...model.curves.map((curve) =>
      el('path', { class: `chart-curve is-${curve.kind}`, d: path(curve.x, curve.y) }),
    ),
    ...ordered.map((mark, i) => {
      const at = mark.y === null ? height - bottom : py(mark.y)
      return group(
        { class: `chart-mark is-${mark.kind}` },
        el('line', { x1: px(mark.x), x2: px(mark.x), y1: wordsAt(i) + 4, y2: at }),
        mark.y === null ? null : el('circle', { cx: px(mark.x), cy: at, r: 4 }),
      )
    }),
    ...ordered.map((mark, i) => label([centre(mark).x, wordsAt(i)], mark.words, 'chart-words', 'middle')),
    el('line', {
      class: 'chart-axis',
      x1: left,
      x2: width - right,
      y1: height - bottom,
      y2: height - bottom,
    }),
    label([width - right, height - 6], model.x.name, 'chart-name', 'end'),
    label([2, -extra + 11], model.y.name, 'chart-name'),
    ...names(model, px, py),
  )
}

/** Names of two curves or more, where the first two lie farthest apart. */
const names = (model: ChartModel, px: (x: number) => number, py: (y: number) => number): SvgNode[] => {
  const [first, second] = model.curves
  if (first === undefined || second === undefined) return []
  let at = 0
  let most = 0
  for (let i = 0; i < Math.min(first.x.length, second.x.length); i++) {
    const apart = Math.abs(first.y[i]! - second.y[i]!)
    if (apart > most) [most, at] = [apart, i]
  }
  return model.curves.map((curve, i) =>
    label(
      [px(curve.x[at] ?? 0) + (i === 0 ? 8 : -8), py(curve.y[at] ?? 0) + (i === 0 ? -6 : 14)],
      curve.name,
      'chart-curve-name',
      i === 0 ? 'start' : 'end',
    ),
  )
}
