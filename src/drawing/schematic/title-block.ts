import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'
import type { TestPoint } from './model.ts'
import { broken } from './words.ts'

const left = 24
const width = 500
const bottom = 736
const labelRoom = 88
const line = 19

/** Rows of words with a label, long values broken, from a top edge down; gives back where it ends. */
function rows(entries: readonly (readonly [string, string])[]): [label: string, value: string][] {
  return entries.flatMap(([name, value]) =>
    broken(value, 52).map((words, index): [string, string] => [index === 0 ? name : '', words]),
  )
}

/** The block in the corner of a printed sheet: what it is, and the points to probe. */
export function titleBlock(
  entries: readonly (readonly [label: string, value: string])[],
  points: readonly TestPoint[],
): SvgNode {
  const words = rows(entries)
  const probed = rows(points.map(({ name, what }) => [name, what] as const))
  const height = (words.length + probed.length + 1) * line + 22
  const top = bottom - height
  const written = (list: readonly (readonly [string, string])[], y: number) =>
    list.flatMap(([name, value], index) => [
      label([left + 10, y + index * line], name, 'block-label'),
      label([left + labelRoom, y + index * line], value, 'block-value'),
    ])
  const second = top + 20 + words.length * line + 14
  return group(
    { class: 'title-block' },
    el('rect', { class: 'frame', x: left, y: top, width, height }),
    el('line', { class: 'frame', x1: left, y1: second - 18, x2: left + width, y2: second - 18 }),
    ...written(words, top + 20),
    ...written(probed, second),
  )
}
