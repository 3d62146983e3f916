import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

/** Something that crosses the barrier. */
export interface Crossing {
  readonly reference: string
  readonly name: string
  /** Words under it: how far, how many layers, which class. */
  readonly says: string
  readonly state: 'reached' | 'short' | 'to measure'
}

export interface BarrierModel {
  readonly title: string
  readonly primary: { readonly name: string; readonly says: readonly string[] }
  readonly secondary: { readonly name: string; readonly says: readonly string[] }
  readonly required: string
  readonly crossings: readonly Crossing[]
}

const width = 560
const row = 56
const side = 168

/** Primary on the left, secondary on the right, the barrier between them with everything that crosses it. */
export function barrierPicture(m: BarrierModel): SvgNode {
  const top = 34
  const height = top + m.crossings.length * row + 8
  const middle = width / 2
  const wall = (x: number, name: string, says: readonly string[], kind: string): SvgNode =>
    group(
      {},
      el('rect', { class: `shore of-${kind}`, x, y: top, width: side, height: height - top }),
      label([x + side / 2, top - 12], name, 'barrier-side', 'middle'),
      ...says.map((line, k) => label([x + side / 2, top + 26 + 20 * k], line, 'barrier-says', 'middle')),
    )
  return el(
    'svg',
    { class: 'barrier-picture', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': m.title },
    wall(0, m.primary.name, m.primary.says, 'primary'),
    wall(width - side, m.secondary.name, m.secondary.says, 'secondary'),
    el('line', { class: 'barrier-line', x1: middle, x2: middle, y1: top, y2: height }),
    label([middle, top - 12], m.required, 'barrier-required', 'middle'),
    ...m.crossings.map((crossing, k) => bridge(crossing, top + row * (k + 0.5), middle)),
  )
}

function bridge({ reference, name, says, state }: Crossing, y: number, middle: number): SvgNode {
  const half = 86
  return group(
    { class: `crossing is-${state.replace(' ', '-')}` },
    el('line', { class: 'lead', x1: side, x2: middle - half, y1: y, y2: y }),
    el('line', { class: 'lead', x1: middle + half, x2: width - side, y1: y, y2: y }),
    el('rect', { class: 'crossing-body', x: middle - half, y: y - 21, width: 2 * half, height: 42 }),
    label([middle, y - 3], `${reference} ${name}`.trim(), 'crossing-name', 'middle'),
    label([middle, y + 14], says, 'crossing-says', 'middle'),
  )
}
