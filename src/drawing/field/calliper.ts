import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

/** Outside and window of an E-type half, in metres; letters of the trade's drawing. */
export interface CalliperModel {
  readonly A_m: number
  readonly B_m: number
  readonly C_m: number
  readonly D_m: number
  readonly E_m: number
  readonly F_m: number
  /** The post is round, and F its diameter. */
  readonly round: boolean
  /** Letter of the dimension that is being measured. */
  readonly marked: string | null
}

const drawn = 250
const left = 62
const top = 62

/** A dimension line with its letter; `off` shifts it off the body. */
const across = (letter: string, x1: number, x2: number, y: number, marked: boolean): SvgNode =>
  group(
    { class: `calliper-dimension${marked ? ' is-marked' : ''}` },
    el('line', { x1, x2, y1: y, y2: y }),
    el('path', { d: `M${x1 + 6} ${y - 3.5}L${x1} ${y}l6 3.5M${x2 - 6} ${y - 3.5}L${x2} ${y}l-6 3.5` }),
    label([(x1 + x2) / 2, y - 5], letter, 'calliper-letter', 'middle'),
  )

const upright = (letter: string, y1: number, y2: number, x: number, marked: boolean): SvgNode =>
  group(
    { class: `calliper-dimension${marked ? ' is-marked' : ''}` },
    el('line', { x1: x, x2: x, y1, y2 }),
    el('path', { d: `M${x - 3.5} ${y1 + 6}L${x} ${y1}l3.5 6M${x - 3.5} ${y2 - 6}L${x} ${y2}l3.5-6` }),
    label([x + 7, (y1 + y2) / 2 + 5], letter, 'calliper-letter'),
  )

/** One half of an E-type core from the front and from its mating face, with where to put the calliper. */
export function calliperDrawing(model: CalliperModel): SvgNode {
  const { A_m, B_m, C_m, D_m, E_m, F_m, round, marked } = model
  const scale = drawn / A_m
  const [a, b, c, d, e, f] = [A_m, B_m, C_m, D_m, E_m, F_m].map((size) => size * scale) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  const foot = top + b
  const legs = (a - e) / 2
  const middle = left + a / 2
  const face = left + a + 74
  const body = `M${left} ${top}V${foot}H${left + a}V${top}h${-legs}V${top + d}H${middle + f / 2}V${top}h${-f}V${top + d}H${left + legs}V${top}Z`
  const is = (letter: string) => marked === letter
  return el(
    'svg',
    {
      class: 'calliper',
      viewBox: `0 0 ${face + a + 60} ${Math.max(foot, top + c) + 44}`,
      role: 'img',
      'aria-label':
        'One half of an E-type core. A: overall width. B: height of the half. C: depth. D: depth of the window. E: width over both windows. F: width or diameter of the post.',
      xmlns: 'http://www.w3.org/2000/svg',
    },
    el('path', { class: 'calliper-body', d: body }),
    across('A', left, left + a, foot + 30, is('A')),
    upright('B', top, foot, left - 26, is('B')),
    upright('D', top, top + d, left + legs + 14, is('D')),
    across('E', left + legs, left + a - legs, top - 34, is('E')),
    across('F', middle - f / 2, middle + f / 2, top - 10, is('F')),
    label([left, 16], 'from the front', 'quiet'),
    el('rect', { class: 'calliper-body', x: face, y: top, width: legs, height: c }),
    el('rect', { class: 'calliper-body', x: face + a - legs, y: top, width: legs, height: c }),
    el('rect', { class: 'calliper-window', x: face + legs, y: top, width: e, height: c }),
    round
      ? el('circle', { class: 'calliper-body', cx: face + a / 2, cy: top + c / 2, r: f / 2 })
      : el('rect', { class: 'calliper-body', x: face + (a - f) / 2, y: top, width: f, height: c }),
    upright('C', top, top + c, face + a + 14, is('C')),
    label([face, 16], 'onto the mating face', 'quiet'),
  )
}
