import { el, group, type SvgNode } from '../svg/node.ts'
import { label, wire } from '../svg/path.ts'

/** One end of a winding part: its pin, whether it bears the dot, and where it goes on the board. */
export interface ConnectionEnd {
  /** Null for a joint off the pins. */
  readonly pin: number | null
  readonly dot: boolean
  /** Empty for a joint that is left unused. */
  readonly goesTo: string
}

/** One part of one winding. */
export interface ConnectionPart {
  readonly name: string
  readonly winding: string
  readonly turns: number
  readonly start: ConnectionEnd
  readonly finish: ConnectionEnd
}

/** Half the length of a coil, and the step from one coil to the next below it. */
const half = 18
const step = 68
const left = 166
const right = 264
const lead = 42
const top = 34

const pinMark = (x: number, y: number, pin: number | null): SvgNode =>
  pin === null
    ? el('circle', { class: 'dot', cx: x, cy: y, r: 5 })
    : group(
        {},
        pin === 1
          ? el('rect', { class: 'pin', x: x - 11, y: y - 11, width: 22, height: 22 })
          : el('circle', { class: 'pin', cx: x, cy: y, r: 11 }),
        label([x, y + 5], String(pin), 'pin-number', 'middle'),
      )

const jointWords = ({ pin }: ConnectionEnd): string => (pin === null ? 'joint, sleeved' : 'joint only')

const pinWords = (end: ConnectionEnd): string =>
  end.pin === null ? 'to a joint off the pins' : `pin ${end.pin} to ${end.goesTo || 'joint only'}`

/** One coil that stands upright with its two leads and pins; the upper end is given first. */
function coilNode(
  part: ConnectionPart,
  y: number,
  side: 'left' | 'right',
  ends: readonly [upper: ConnectionEnd, lower: ConnectionEnd],
): SvgNode {
  const x = side === 'left' ? left : right
  const outward = side === 'left' ? -1 : 1
  const toward = side === 'left' ? 'start' : 'end'
  const sweep = side === 'left' ? 1 : 0
  const turn = `a6 6 0 0 ${sweep} 0 12`
  return group(
    { class: `winding-part of-${part.winding}` },
    el('path', { class: 'symbol', d: `M${x} ${y - half}${turn}${turn}${turn}` }),
    label([x - outward * 12, y - 2], part.name, 'part-name', toward),
    label([x - outward * 12, y + 13], `${part.turns} T`, 'turns', toward),
    ...ends.flatMap((end, index) => {
      const way = index === 0 ? -1 : 1
      const at = y + way * half
      const pinY = at + way * 3
      const pinX = x + outward * lead
      return [
        wire([x, at], [x, pinY], [pinX - outward * (end.pin === null ? 5 : 11), pinY]),
        end.dot ? el('circle', { class: 'dot', cx: x + outward * 10, cy: at - way * 7, r: 4 }) : null,
        pinMark(pinX, pinY, end.pin),
        label(
          [pinX + outward * 16, pinY + 5],
          end.goesTo || jointWords(end),
          end.goesTo ? 'net' : 'quiet',
          side === 'left' ? 'end' : 'start',
        ),
      ]
    }),
  )
}

/** Parts of one winding from the top of the drawing down; the primary has its first part, at the drain, below. */
const downward = (parts: readonly ConnectionPart[], winding: string): readonly ConnectionPart[] => {
  const own = parts.filter((part) => part.winding === winding)
  return winding === 'primary' ? [...own].reverse() : own
}

/**
 * Windings on their core with every end's pin, dot and place on the board: which start goes to drain, bulk and
 * rectifier. Drawn the way round of the schematic: the drain end of the primary below, the rectifier end above.
 */
export function windingConnections(parts: readonly ConnectionPart[]): SvgNode {
  const primarySide = [...downward(parts, 'primary'), ...downward(parts, 'bias')]
  const secondarySide = downward(parts, 'secondary')
  const rows = Math.max(primarySide.length, secondarySide.length)
  const lowered = ((rows - secondarySide.length) * step) / 2
  const bottom = top + (rows - 1) * step + 2 * half + 16
  const middle = (left + right) / 2
  const row = (list: readonly ConnectionPart[], side: 'left' | 'right', first: number) =>
    list.map((part, index) =>
      coilNode(
        part,
        first + half + index * step,
        side,
        part.winding === 'primary' ? [part.finish, part.start] : [part.start, part.finish],
      ),
    )
  const spoken = parts
    .map(({ name, start, finish }) => `${name}: start ${pinWords(start)}, finish ${pinWords(finish)}`)
    .join('; ')
  return el(
    'svg',
    {
      class: 'connections',
      viewBox: `14 0 390 ${bottom}`,
      role: 'img',
      'aria-label': `Where each end goes. ${spoken}`,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    label([left - lead + 11, 14], 'primary side', 'quiet', 'end'),
    label([right + lead - 11, 14], 'secondary side', 'quiet'),
    el('line', { class: 'core-line', x1: middle - 3, y1: 6, x2: middle - 3, y2: bottom - 4 }),
    el('line', { class: 'core-line', x1: middle + 3, y1: 6, x2: middle + 3, y2: bottom - 4 }),
    ...row(primarySide, 'left', top),
    ...row(secondarySide, 'right', top + lowered),
  )
}
