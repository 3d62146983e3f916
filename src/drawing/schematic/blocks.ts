import { el, group, type SvgNode } from '../svg/node.ts'
import { label, wire } from '../svg/path.ts'
import { column } from './layout.ts'
import type { SchematicModel } from './model.ts'
import { coil, diode, placed } from './symbols.ts'

const box = (x: number, y: number, width: number, height: number) =>
  el('rect', { class: 'symbol', x, y, width, height, rx: 2 })
const dot = (x: number, y: number) => el('circle', { class: 'junction', cx: x, cy: y, r: 3.4 })

/**
 * Chip with switch and control, centred on the origin: D above, S below; to the left the control pin C, or the
 * feedback pin F with a supply pin V to the right.
 */
export const switcherBlock = (control: SchematicModel['control']): SvgNode =>
  group(
    {},
    box(-55, -50, 110, 100),
    label([5, -36], 'D', 'pin'),
    label([5, 45], 'S', 'pin'),
    label([-50, 4], control === 'voltage-mode' ? 'C' : 'F', 'pin'),
    control === 'voltage-mode' ? null : label([50, 34], 'V', 'pin', 'end'),
    el('path', {
      class: 'symbol',
      d: 'M0-50V-22H22M0 50V24H22M22-27V-17M22-2V8M22 19V29M22 3H34V24H22M10-22V24',
      fill: 'none',
    }),
  )

/** Bridge as one block: two alternating inputs at the left, plus and minus at the right. */
export const bridgeBlock = (): SvgNode =>
  group(
    {},
    box(-32, -66, 64, 132),
    placed(diode(), [0, 0], 3),
    label([-24, -46], '∼', 'pin'),
    label([-24, 54], '∼', 'pin'),
    label([24, -46], '+', 'pin', 'end'),
    label([24, 54], '−', 'pin', 'end'),
  )

/** Common-mode choke: one coil in each line, one core between them, dots on the same side. */
export const commonModeBlock = (): SvgNode =>
  group(
    {},
    coil(),
    placed(coil(), [0, 100], 2),
    el('line', { class: 'symbol', x1: -26, y1: 46, x2: 26, y2: 46 }),
    el('line', { class: 'symbol', x1: -26, y1: 54, x2: 26, y2: 54 }),
    dot(-34, -8),
    dot(-34, 108),
  )

const pinLabels = (
  [upper, lower]: readonly [string, string],
  x: number,
  [above, below]: readonly [number, number],
  anchor: 'start' | 'end',
): SvgNode[] => [label([x, above], upper, 'pin', anchor), label([x, below], lower, 'pin', anchor)]

/** Windings on one core. Dots mark the starts: drain end of the primary, rectifier ends of the others. */
export function transformerBlock(model: SchematicModel): SvgNode {
  const { winding, secondary, barrier } = column
  return group(
    {},
    placed(coil(), [winding, 160], 1),
    placed(coil(), [secondary, 160], 3),
    placed(coil(), [winding, 460], 1),
    el('line', { class: 'symbol', x1: barrier - 4, y1: 112, x2: barrier - 4, y2: 505 }),
    el('line', { class: 'symbol', x1: barrier + 4, y1: 112, x2: barrier + 4, y2: 505 }),
    dot(winding - 11, 194),
    dot(secondary + 11, 126),
    dot(winding - 11, 430),
    label([winding - 14, 163], model.turns.primary, 'value', 'end'),
    label([secondary + 14, 163], model.turns.secondary, 'value'),
    label([winding - 14, 466], model.turns.bias, 'value', 'end'),
    ...(model.pins
      ? [
          ...pinLabels(model.pins.primary, winding - 6, [118, 214], 'end'),
          ...pinLabels(model.pins.secondary, secondary + 14, [146, 196], 'start'),
          ...pinLabels(model.pins.bias, winding - 6, [449, 487], 'end'),
        ]
      : []),
  )
}

/** Optocoupler about the barrier: phototransistor at the left, light diode at the right. */
export const optocouplerBlock = (): SvgNode =>
  group(
    {},
    box(-82, -44, 154, 88),
    wire([-57, -30], [-57, -18], [-66, -6]),
    wire([-57, 30], [-57, 18], [-66, 6]),
    el('line', { class: 'symbol', x1: -67, y1: -15, x2: -67, y2: 15 }),
    el('path', { class: 'symbol solid', d: 'M-57 18L-60 10L-65 15Z' }),
    placed(diode(), [47, 0], 1),
    el('path', { class: 'symbol thin', d: 'M26-5L4-5M10-9L4-5L10-1M26 7L4 7M10 3L4 7L10 11', fill: 'none' }),
  )

/** Shunt reference: diode with a reference input at its side; cathode above. */
export const referenceBlock = (): SvgNode =>
  group(
    {},
    wire([0, -30], [0, 30]),
    el('path', { class: 'symbol solid', d: 'M-10 9L10 9L0-9Z' }),
    el('path', { class: 'symbol', d: 'M-14-5L-10-9H10L14-13', fill: 'none' }),
    wire([8, 0], [16, 0]),
  )
