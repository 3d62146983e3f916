import { group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'
import { line, type Seat } from './layout.ts'
import type { SchematicItem } from './model.ts'

/** Words broken at spaces so that no line is longer than `widest` letters, unless one word alone is. */
export function broken(text: string, widest: number): string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= widest)
      lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}

const marks = { holds: [], near: ['△ close'], broken: ['▲ over limit'] } as const

/** Reference, value, reading and mark of a part, one under the other at its seat; the mark stands away from the part. */
export function partWords(seat: Seat, item: SchematicItem): SvgNode {
  const flags = marks[item.standing ?? 'holds']
  const readings = item.reading ? broken(item.reading, Math.max(12, seat.widest)) : []
  const lines = [
    [item.reference, 'reference'],
    ...broken(item.value, seat.widest).map((words) => [words, 'value']),
    ...readings.map((words) => [words, 'reading']),
  ]
  const flagLines = flags.map((words) => [words, 'flag'])
  const all = seat.grow === 'up' ? [...flagLines, ...lines] : [...lines, ...flagLines]
  const x = seat.centre[0] + seat.words[0]
  const first = seat.centre[1] + seat.words[1] - (seat.grow === 'up' ? (all.length - 1) * line : 0)
  return group(
    {},
    ...all.map(([words, kind], index) => label([x, first + index * line], words!, kind!, seat.anchor)),
  )
}
