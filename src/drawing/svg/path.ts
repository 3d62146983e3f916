import { el, type SvgNode } from './node.ts'

export type Point = readonly [x: number, y: number]

/** Straight wire through the given points. */
export const wire = (...points: Point[]): SvgNode =>
  el('polyline', { class: 'wire', points: points.map(([x, y]) => `${x},${y}`).join(' '), fill: 'none' })

/** Junction dot. */
export const junction = ([x, y]: Point): SvgNode => el('circle', { class: 'junction', cx: x, cy: y, r: 2.6 })

/** Text at a point; `anchor` is start, middle or end. */
export const label = (
  [x, y]: Point,
  words: string,
  className: string,
  anchor: 'start' | 'middle' | 'end' = 'start',
): SvgNode => el('text', { class: className, x, y, 'text-anchor': anchor }, words)
