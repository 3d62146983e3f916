import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

/** What is soldered to one pin. */
export interface PinUse {
  readonly pin: number
  /** Short name of the winding part, for instance `P1`. */
  readonly part: string
  readonly end: 'start' | 'finish'
  /** Where the pin goes on the board, for instance `drain`. Empty for a joint that is left unused. */
  readonly goesTo: string
  readonly side: 'primary' | 'secondary'
}

export interface FormerModel {
  readonly rowOne: number
  readonly rowTwo: number
  readonly pins: readonly PinUse[]
  /** Sense of winding as seen from the side away from the pins. */
  readonly direction: 'clockwise' | 'counter-clockwise'
}

const pitch = 86
const depth = 150

/** Place of a pin in the view from above: row one along the lower edge from the left, row two back along the upper. */
function pinPlace(model: FormerModel, pin: number, width: number): [x: number, y: number, upper: boolean] {
  const upper = pin > model.rowOne
  const count = upper ? model.rowTwo : model.rowOne
  const index = upper ? model.rowOne + model.rowTwo - pin : pin - 1
  return [((index + 0.5) * width) / count, upper ? 0 : depth, upper]
}

function pinNode(model: FormerModel, pin: number, width: number, mirrored: boolean): SvgNode {
  const [across, y, upper] = pinPlace(model, pin, width)
  const x = mirrored ? width - across : across
  const uses = model.pins.filter((use) => use.pin === pin)
  const first = uses[0]
  const direction = upper ? -1 : 1
  const lines = uses.flatMap((use) => [
    `${use.part} ${use.end === 'start' ? '● start' : 'finish'}`,
    use.goesTo ? `to ${use.goesTo}` : 'joint only',
  ])
  return group(
    { class: `pin-place ${first ? `is-${first.side}` : 'is-free'}` },
    pin === 1
      ? el('rect', { class: 'pin', x: x - 10, y: y - 10, width: 20, height: 20 })
      : el('circle', { class: 'pin', cx: x, cy: y, r: 10 }),
    label([x, y + 4], String(pin), 'pin-number', 'middle'),
    ...lines.map((line, index) =>
      label(
        [x, y + direction * 24 + (upper ? -13 * (lines.length - 1 - index) : 13 * index) + (upper ? 0 : 4)],
        line,
        index % 2 === 0 ? 'pin-use' : 'pin-net',
        'middle',
      ),
    ),
  )
}

/** Arrow round the post in the sense of winding. */
function turnArrow(cx: number, cy: number, clockwise: boolean): SvgNode {
  const r = 24
  const flip = clockwise ? 1 : -1
  return group(
    { class: 'turn' },
    el('path', {
      d: `M${cx - r * flip} ${cy}A${r} ${r} 0 1 ${clockwise ? 1 : 0} ${cx} ${cy + r}`,
      fill: 'none',
    }),
    el('path', { d: `M${cx} ${cy + r}l${8 * flip}-6v12z`, class: 'head' }),
  )
}

/** The former seen from above (away from the pins) or from the pin side; the two are mirror images. */
export function formerView(model: FormerModel, seenFrom: 'above' | 'pins'): SvgNode {
  const width = Math.max(model.rowOne, model.rowTwo) * pitch + 20
  const mirrored = seenFrom === 'pins'
  const clockwise = (model.direction === 'clockwise') !== mirrored
  const title =
    seenFrom === 'above' ? 'Seen from above, pins away from you' : 'Seen from the pin side, as you solder'
  const pins = Array.from({ length: model.rowOne + model.rowTwo }, (_, index) => index + 1)
  const spoken = model.pins
    .map((use) => `pin ${use.pin}: ${use.part} ${use.end}${use.goesTo ? ` to ${use.goesTo}` : ''}`)
    .join('; ')
  return el(
    'svg',
    {
      class: 'former',
      viewBox: `-24 -82 ${width + 48} ${depth + 164}`,
      role: 'img',
      'aria-label': `${title}. ${spoken}`,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    label([width / 2, -66], title, 'view-title', 'middle'),
    el('rect', { class: 'body', x: 0, y: 0, width, height: depth, rx: 4 }),
    el('rect', { class: 'barrel', x: width / 2 - 40, y: depth / 2 - 40, width: 80, height: 80, rx: 8 }),
    turnArrow(width / 2, depth / 2, clockwise),
    ...pins.map((pin) => pinNode(model, pin, width, mirrored)),
  )
}
