import { coil, placed } from '../schematic/symbols.ts'
import { el, group, type SvgNode } from '../svg/node.ts'
import { label, wire } from '../svg/path.ts'

/** One end of a winding part: its pin, whether it bears the dot, and where it goes on the board. */
export interface ConnectionEnd {
  readonly pin: number
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

const half = 28
const between = 26
const left = 150
const right = 252
const lead = 46

const pinMark = (x: number, y: number, pin: number): SvgNode =>
  group(
    {},
    pin === 1
      ? el('rect', { class: 'pin', x: x - 11, y: y - 11, width: 22, height: 22 })
      : el('circle', { class: 'pin', cx: x, cy: y, r: 11 }),
    label([x, y + 5], String(pin), 'pin-number', 'middle'),
  )

/** One coil that stands upright with its two leads and pins; the upper end is given first. */
function coilNode(
  part: ConnectionPart,
  y: number,
  side: 'left' | 'right',
  upper: ConnectionEnd,
  lower: ConnectionEnd,
): SvgNode {
  const x = side === 'left' ? left : right
  const outward = side === 'left' ? -1 : 1
  const anchor = side === 'left' ? 'end' : 'start'
  const ends = [
    [upper, y - half, -1],
    [lower, y + half, 1],
  ] as const
  return group(
    { class: `winding-part of-${part.winding}` },
    placed(coil(), [x, y], side === 'left' ? 1 : 3),
    label([x - outward * 16, y + 1], part.name, 'part-name', side === 'left' ? 'start' : 'end'),
    label([x - outward * 16, y + 17], `${part.turns} T`, 'turns', side === 'left' ? 'start' : 'end'),
    ...ends.flatMap(([end, at, way]) => {
      const pinX = x + outward * lead
      const pinY = at + way * 2
      return [
        wire([x, at], [x, pinY], [pinX - outward * 11, pinY]),
        end.dot ? el('circle', { class: 'dot', cx: x + outward * 11, cy: at - way * 9, r: 4 }) : null,
        pinMark(pinX, pinY, end.pin),
        label(
          [pinX + outward * 17, pinY + 5],
          end.goesTo || 'joint only',
          end.goesTo ? 'net' : 'quiet',
          anchor,
        ),
      ]
    }),
  )
}

/**
 * Windings on their core with every end's pin, dot and place on the board: which start goes to drain, bulk and
 * rectifier. Drawn the way round of the schematic: the drain end of the primary below, the rectifier end above.
 */
export function windingConnections(parts: readonly ConnectionPart[]): SvgNode {
  const of = (winding: string) => parts.filter((part) => part.winding === winding)
  const nodes: SvgNode[] = []
  let bottom = 0
  const stand = (
    stack: readonly ConnectionPart[],
    side: 'left' | 'right',
    top: number,
    firstBelow: boolean,
  ) => {
    const order = firstBelow ? [...stack].reverse() : stack
    order.forEach((part, index) => {
      const y = top + half + index * (2 * half + between)
      const [upper, lower] = firstBelow ? [part.finish, part.start] : [part.start, part.finish]
      nodes.push(coilNode(part, y, side, upper, lower))
      bottom = Math.max(bottom, y + half)
    })
    return top + stack.length * (2 * half + between)
  }
  const after = stand(of('primary'), 'left', 14, true)
  stand(of('bias'), 'left', after + 6, false)
  const height = bottom
  const secondary = of('secondary')
  const tall = secondary.length * (2 * half + between) - between
  stand(secondary, 'right', Math.max(14, 14 + (height - 14 - tall) / 2), false)
  const middle = (left + right) / 2
  const spoken = parts
    .map(
      ({ name, start, finish }) =>
        `${name}: start pin ${start.pin} to ${start.goesTo || 'joint only'}, finish pin ${finish.pin} to ${finish.goesTo || 'joint only'}`,
    )
    .join('; ')
  return el(
    'svg',
    {
      class: 'connections',
      viewBox: `-6 -12 414 ${bottom + 32}`,
      role: 'img',
      'aria-label': `Where each end goes. ${spoken}`,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    label([left - lead - 44, -1], 'primary side', 'quiet', 'middle'),
    label([right + lead + 44, -1], 'secondary side', 'quiet', 'middle'),
    el('line', { class: 'core-line', x1: middle - 3, y1: 4, x2: middle - 3, y2: bottom + 10 }),
    el('line', { class: 'core-line', x1: middle + 3, y1: 4, x2: middle + 3, y2: bottom + 10 }),
    ...nodes,
  )
}
