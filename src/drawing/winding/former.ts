import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

/** What is soldered to one pin. */
export interface PinUse {
  readonly pin: number
  /** Short name of the winding part, for instance `P1`. */
  readonly part: string
  readonly end: 'start' | 'finish'
  /** The dotted end: all dotted ends swing together. */
  readonly dot: boolean
  /** Where the pin goes on the board, for instance `drain`. Empty for a joint that is left unused. */
  readonly goesTo: string
  readonly side: 'primary' | 'secondary'
}

export interface FormerModel {
  readonly rowOne: number
  readonly rowTwo: number
  readonly pins: readonly PinUse[]
  /** Sense of the first winding as seen from the side away from the pins. */
  readonly direction: 'clockwise' | 'counter-clockwise'
}

const depth = 70
/** Step from pin to pin; smaller in a long row, no smaller than the words of two neighbours. */
const stepOf = (pins: number): number => Math.min(70, Math.max(62, 560 / pins))

/** Row one along the lower edge from the left, row two back along the upper, as seen from above. */
const rowsOf = (model: FormerModel): readonly (readonly number[])[] => [
  Array.from({ length: model.rowOne }, (_, index) => index + 1),
  Array.from({ length: model.rowTwo }, (_, index) => model.rowOne + model.rowTwo - index),
]

function pinNode(model: FormerModel, pin: number, x: number, upper: boolean): SvgNode {
  const y = upper ? 0 : depth
  const uses = model.pins.filter((use) => use.pin === pin)
  const first = uses[0]
  const ends = uses.map(({ part, end }) => `${part} ${end}`)
  const net = uses.map((use) => use.goesTo).filter(Boolean)
  const lines = first ? [...ends, ...(net.length > 0 ? net : ['joint only'])] : []
  const away = upper ? [...lines].reverse() : lines
  return group(
    { class: `pin-place ${first ? `is-${first.side}` : 'is-free'}` },
    pin === 1
      ? el('rect', { class: 'pin', x: x - 11, y: y - 11, width: 22, height: 22 })
      : el('circle', { class: 'pin', cx: x, cy: y, r: first ? 11 : 9 }),
    label([x, y + 5], String(pin), 'pin-number', 'middle'),
    uses.length === 1 && first?.dot
      ? el('circle', { class: 'dot', cx: x + 17, cy: upper ? 11 : depth - 11, r: 4.5 })
      : null,
    ...away.map((line, index) => {
      const isNet = upper ? index < lines.length - ends.length : index >= ends.length
      const at = upper ? y - 18 - 16 * (away.length - 1 - index) : y + 28 + 16 * index
      return label([x, at], line, isNet ? 'pin-net' : 'pin-use', 'middle')
    }),
  )
}

/** Height beside a row for the words of its pins. */
const room = (model: FormerModel, row: readonly number[]): number => {
  const lines = row.map((pin) => {
    const uses = model.pins.filter((use) => use.pin === pin)
    return uses.length === 0 ? 0 : uses.length + Math.max(1, uses.filter((use) => use.goesTo).length)
  })
  return 22 + 16 * Math.max(...lines)
}

/** Arrow round the post in the sense of winding. */
function turnArrow(cx: number, cy: number, clockwise: boolean): SvgNode {
  const r = 13
  const flip = clockwise ? 1 : -1
  return group(
    { class: 'turn' },
    el('path', {
      d: `M${cx - r * flip} ${cy}A${r} ${r} 0 1 ${clockwise ? 1 : 0} ${cx} ${cy + r}`,
      fill: 'none',
    }),
    el('path', { d: `M${cx - 8 * flip} ${cy + r}l${9 * flip}-5v10z`, class: 'head' }),
  )
}

/** The former seen from above (away from the pins) or from the pin side; the two are mirror images. */
export function formerView(model: FormerModel, seenFrom: 'above' | 'pins'): SvgNode {
  const rows = rowsOf(model)
  const longest = Math.max(model.rowOne, model.rowTwo)
  const width = Math.max(300, longest * stepOf(longest))
  const mirrored = seenFrom === 'pins'
  const clockwise = (model.direction === 'clockwise') !== mirrored
  const title = seenFrom === 'above' ? 'From above, pins away from you' : 'From the pin side, as you solder'
  const spoken = model.pins
    .map((use) => `pin ${use.pin}: ${use.part} ${use.end}${use.goesTo ? ` to ${use.goesTo}` : ''}`)
    .join('; ')
  return el(
    'svg',
    {
      class: 'former',
      viewBox: `-14 ${-room(model, rows[1]!)} ${width + 28} ${depth + room(model, rows[0]!) + room(model, rows[1]!)}`,
      role: 'img',
      'aria-label': `${title}. ${spoken}`,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    el('rect', { class: 'body', x: 0, y: 0, width, height: depth, rx: 4 }),
    el('rect', { class: 'barrel', x: width / 2 - 20, y: depth / 2 - 20, width: 40, height: 40, rx: 8 }),
    turnArrow(width / 2, depth / 2, clockwise),
    label([10, depth / 2 - 4], title.split(', ')[0]!, 'view-title'),
    label([10, depth / 2 + 13], title.split(', ')[1]!, 'view-title is-quiet'),
    ...rows.flatMap((row, index) => {
      const step = width / row.length
      return row.map((pin, place) => {
        const along = (place + 0.5) * step
        return pinNode(model, pin, mirrored ? width - along : along, index === 1)
      })
    }),
  )
}
