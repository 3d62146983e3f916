import { el, group, type SvgNode } from '../svg/node.ts'

/** A straight or logarithmic scale from values to places on the sheet. */
export interface Scale {
  readonly at: (value: number) => number
  readonly ticks: readonly { readonly value: number; readonly label: string | null }[]
}

/** Logarithmic scale: a tick at 1 to 9 of each decade, decades with a label. */
export function logScale(
  from: number,
  to: number,
  start: number,
  end: number,
  label: (value: number) => string,
): Scale {
  const a = Math.log10(from)
  const b = Math.log10(to)
  const ticks = []
  for (let decade = Math.floor(a); decade <= Math.ceil(b); decade++)
    for (let n = 1; n < 10; n++) {
      const value = n * 10 ** decade
      if (value >= from * 0.999 && value <= to * 1.001)
        ticks.push({ value, label: n === 1 ? label(value) : null })
    }
  return { at: (value) => start + ((Math.log10(value) - a) / (b - a)) * (end - start), ticks }
}

/** Straight scale with labelled ticks every `step`. */
export function straightScale(
  from: number,
  to: number,
  step: number,
  start: number,
  end: number,
  label: (value: number) => string,
): Scale {
  const ticks = []
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k++) {
    const value = k * step
    ticks.push({ value, label: label(value) })
  }
  return { at: (value) => start + ((value - from) / (to - from)) * (end - start), ticks }
}

/** 1, 2 or 5 times a power of ten, so that about `count` of them make the span. */
export function niceStep(span: number, count: number): number {
  const raw = Math.max(span, 1e-30) / count
  const decade = 10 ** Math.floor(Math.log10(raw))
  const n = raw / decade
  return decade * (n < 1.5 ? 1 : n < 3.5 ? 2 : n < 7.5 ? 5 : 10)
}

export interface Frame {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** Grid, tick labels and frame of one plot; x labels are left out where another plot below carries them. */
export function grid(
  frame: Frame,
  x: Scale,
  y: Scale,
  options: {
    readonly xLabels: boolean
    readonly title: string
    readonly titleAt?: 'top-left' | 'top-right' | 'bottom-right'
  },
): SvgNode {
  const { left, right, top, bottom } = frame
  const at = options.titleAt ?? 'top-left'
  return group(
    { class: 'axes' },
    ...x.ticks.map(({ value, label }) =>
      el('line', {
        class: label === null ? 'grid is-fine' : 'grid',
        x1: x.at(value),
        x2: x.at(value),
        y1: top,
        y2: bottom,
      }),
    ),
    ...y.ticks.map(({ value }) =>
      el('line', { class: 'grid', x1: left, x2: right, y1: y.at(value), y2: y.at(value) }),
    ),
    el('rect', { class: 'frame', x: left, y: top, width: right - left, height: bottom - top }),
    ...y.ticks.map(({ value, label }) =>
      el('text', { class: 'tick', x: left - 6, y: y.at(value) + 4, 'text-anchor': 'end' }, label ?? ''),
    ),
    ...(options.xLabels
      ? x.ticks.flatMap(({ value, label }) =>
          label === null
            ? []
            : [el('text', { class: 'tick', x: x.at(value), y: bottom + 16, 'text-anchor': 'middle' }, label)],
        )
      : []),
    el(
      'text',
      {
        class: 'plot-title',
        x: at === 'top-left' ? left + 6 : right - 6,
        y: at === 'bottom-right' ? bottom - 8 : top + 15,
        'text-anchor': at === 'top-left' ? 'start' : 'end',
      },
      options.title,
    ),
  )
}

const place = (value: number): number => Math.round(value * 10) / 10

/** A curve through points, held inside the frame's height. */
export function curve(
  className: string,
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  x: Scale,
  y: Scale,
  frame: Frame,
): SvgNode {
  let d = ''
  for (let k = 0; k < xs.length; k++)
    d += `${k === 0 ? 'M' : 'L'}${place(x.at(xs[k]!))} ${place(within(y.at(ys[k]!), frame))}`
  return el('path', { class: className, d, fill: 'none' })
}

/** The area between two curves. */
export function area(
  className: string,
  xs: ArrayLike<number>,
  low: ArrayLike<number>,
  high: ArrayLike<number>,
  x: Scale,
  y: Scale,
  frame: Frame,
): SvgNode {
  let d = ''
  for (let k = 0; k < xs.length; k++)
    d += `${k === 0 ? 'M' : 'L'}${place(x.at(xs[k]!))} ${place(within(y.at(high[k]!), frame))}`
  for (let k = xs.length - 1; k >= 0; k--)
    d += `L${place(x.at(xs[k]!))} ${place(within(y.at(low[k]!), frame))}`
  return el('path', { class: className, d: `${d}Z` })
}

export const within = (y: number, { top, bottom }: Frame): number => Math.min(bottom, Math.max(top, y))
