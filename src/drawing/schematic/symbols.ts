import { el, group, type SvgNode } from '../svg/node.ts'
import { type Point, wire } from '../svg/path.ts'

/**
 * Symbols in the manner of IEC 60617, each drawn about its own centre with its two leads on a horizontal axis from
 * -`reach` to +`reach`; `place` turns it by quarter turns and moves it.
 */
export const reach = 30

/** A symbol moved to a centre and turned by quarter turns clockwise. */
export const placed = (symbol: SvgNode, [x, y]: Point, quarterTurns = 0): SvgNode =>
  group({ transform: `translate(${x} ${y})${quarterTurns ? ` rotate(${quarterTurns * 90})` : ''}` }, symbol)

const line = (x1: number, y1: number, x2: number, y2: number) =>
  el('line', { class: 'symbol', x1, y1, x2, y2 })
const shape = (d: string, filled = false) => el('path', { class: filled ? 'symbol solid' : 'symbol', d })

export const resistor = (): SvgNode =>
  group({}, wire([-reach, 0], [-16, 0]), wire([16, 0], [reach, 0]), shape('M-16-6H16V6H-16Z'))

export const fuse = (): SvgNode => group({}, wire([-reach, 0], [reach, 0]), shape('M-16-6H16V6H-16Z'))

/** Resistor with the diagonal of a part that depends on temperature or voltage; its sign stays upright when turned. */
export const dependentResistor = (sign: string, quarterTurns: 0 | 1 = 0): SvgNode =>
  group(
    {},
    resistor(),
    shape('M-18 13H-11L11-13'),
    el(
      'text',
      quarterTurns === 0
        ? { class: 'mark', x: -28, y: -9 }
        : { class: 'mark', x: -26, y: 20, transform: 'rotate(-90 -22 16)' },
      sign,
    ),
  )

export const capacitor = (): SvgNode =>
  group({}, wire([-reach, 0], [-4, 0]), wire([4, 0], [reach, 0]), line(-4, -13, -4, 13), line(4, -13, 4, 13))

/** Electrolytic: the positive plate is open, on the lead at -reach. */
export const polarised = (): SvgNode =>
  group(
    {},
    wire([-reach, 0], [-7, 0]),
    wire([4, 0], [reach, 0]),
    shape('M-7-13H-2V13H-7Z'),
    shape('M3-13H5V13H3Z', true),
    line(-17, -9, -11, -9),
    line(-14, -12, -14, -6),
  )

/** Diode whose anode is the lead at -reach. */
export const diode = (): SvgNode =>
  group({}, wire([-reach, 0], [reach, 0]), shape('M-9-9L9 0L-9 9Z', true), line(9, -10, 9, 10))

/** Avalanche device whose anode is the lead at -reach. */
export const avalanche = (): SvgNode =>
  group(
    {},
    wire([-reach, 0], [reach, 0]),
    shape('M-9-9L9 0L-9 9Z', true),
    el('path', { class: 'symbol', d: 'M5-13L9-10V10L13 13', fill: 'none' }),
  )

export const lightDiode = (): SvgNode =>
  group(
    {},
    diode(),
    el('path', { class: 'symbol thin', d: 'M-2-13L5-20M1-20H5V-16M7-11L14-18M10-18H14V-14', fill: 'none' }),
  )

/** Coil of four half-turns on an axis from -28 to +28, bulging towards negative y. */
export const coil = (): SvgNode =>
  el('path', {
    class: 'symbol',
    d: 'M-28 0a7 7 0 0 1 14 0a7 7 0 0 1 14 0a7 7 0 0 1 14 0a7 7 0 0 1 14 0',
    fill: 'none',
  })

export const choke = (): SvgNode =>
  group({}, wire([-reach, 0], [-28, 0]), coil(), wire([28, 0], [reach, 0]), line(-26, -11, 26, -11))

export const terminal = (): SvgNode => el('circle', { class: 'symbol terminal', cx: 0, cy: 0, r: 4.5 })
