import type { SvgNode } from '../svg/node.ts'
import { junction, type Point, wire } from '../svg/path.ts'
import { column, rail, seats } from './layout.ts'
import type { SchematicModel, Spot } from './model.ts'
import { reach } from './symbols.ts'

const run = (points: Point[], dots: Point[] = []): SvgNode[] => [wire(...points), ...dots.map(junction)]

/** A wire along a height that is interrupted where series parts sit. */
function seriesRun(
  y: number,
  from: number,
  to: number,
  spots: Spot[],
  has: (spot: Spot) => boolean,
): SvgNode[] {
  const nodes: SvgNode[] = []
  let x = from
  for (const spot of spots) {
    if (!has(spot)) continue
    const centre = seats[spot].centre[0]
    nodes.push(wire([x, y], [centre - reach, y]))
    x = centre + reach
  }
  nodes.push(wire([x, y], [to, y]))
  return nodes
}

/** A part that stands upright between two heights: its two leads, with dots where they meet the rails. */
function shunt(spot: Spot, top: number, bottom: number, dots: 'both' | 'top' | 'none' = 'both'): SvgNode[] {
  const [x, y] = seats[spot].centre
  const nodes = [wire([x, top], [x, y - reach]), wire([x, y + reach], [x, bottom])]
  if (dots !== 'none') nodes.push(junction([x, top]))
  if (dots === 'both') nodes.push(junction([x, bottom]))
  return nodes
}

/** Mains terminals to bridge, or DC terminals to the bulk capacitor. */
export function inputWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const nodes = seriesRun(
    rail.line,
    column.terminal + 4,
    has('commonModeChoke') ? 454 : column.bridgeLeft,
    ['fuse', 'ntc'],
    has,
  )
  const choke = has('commonModeChoke')
  nodes.push(wire([column.terminal + 4, rail.neutral], [choke ? 454 : column.bridgeLeft, rail.neutral]))
  if (choke) for (const y of [rail.line, rail.neutral]) nodes.push(wire([510, y], [column.bridgeLeft, y]))
  for (const spot of ['varistor', 'xCapacitor', 'bleed'] as const)
    if (has(spot)) nodes.push(...shunt(spot, rail.line, rail.neutral))
  const exit = has('bridge') ? column.bridgeRight : column.bridgeLeft
  nodes.push(
    ...run([
      [exit, rail.line],
      [604, rail.line],
      [604, rail.primaryTop],
    ]),
    ...run([
      [exit, rail.neutral],
      [604, rail.neutral],
      [604, rail.primaryCommon],
    ]),
  )
  return nodes
}

/** Bulk, clamp, primary winding, chip, bias supply. */
export function primaryWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const nodes = [
    ...run([
      [604, rail.primaryTop],
      [column.winding, rail.primaryTop],
      [column.winding, 132],
    ]),
    ...run([
      [column.winding, 188],
      [column.winding, rail.drain],
      [column.clamp, rail.drain],
      [column.clamp, 285],
    ]),
    ...run([
      [604, rail.primaryCommon],
      [column.clamp, rail.primaryCommon],
      [column.clamp, 385],
    ]),
    ...shunt('bulkCapacitor', rail.primaryTop, rail.primaryCommon),
    junction([column.clamp, rail.drain]),
    wire([column.clamp, rail.drain], [column.clamp, 230]),
  ]
  if (has('clampAvalanche'))
    nodes.push(
      wire([column.clamp, rail.primaryTop], [column.clamp, 90]),
      junction([column.clamp, rail.primaryTop]),
      wire([column.clamp, 150], [column.clamp, 170]),
    )
  else
    nodes.push(
      ...shunt('clampResistor', rail.primaryTop, 160, 'top'),
      ...shunt('clampCapacitor', rail.primaryTop, 160, 'top'),
      ...run(
        [
          [704, 160],
          [766, 160],
        ],
        [[column.clamp, 160]],
      ),
      wire([column.clamp, 160], [column.clamp, 170]),
    )
  const common = 500
  nodes.push(
    ...run([
      [column.winding, 432],
      [column.winding, rail.bias],
      [888, rail.bias],
    ]),
    ...run(
      [
        [column.winding, 488],
        [column.winding, common],
        [column.clamp, common],
      ],
      [[column.clamp, common]],
    ),
    ...run([
      [828, rail.bias],
      [812, rail.bias],
    ]),
    ...shunt('biasCapacitor', rail.bias, common, 'both'),
    ...run(
      [
        [column.control, 652],
        [column.control, rail.primaryCommon],
      ],
      [[column.control, rail.primaryCommon]],
    ),
    ...controlWiring(model),
  )
  return nodes
}

/**
 * From the phototransistor to the chip. Either it feeds current from the bias supply into the control pin, or it draws
 * current out of the feedback pin to the source, and the bias supply feeds the chip at a pin of its own.
 */
function controlWiring(model: SchematicModel): SvgNode[] {
  if (model.control === 'voltage-mode')
    return [
      ...run(
        [
          [832, rail.bias],
          [832, 535],
          [868, 535],
        ],
        [[832, rail.bias]],
      ),
      ...run(
        [
          [868, 595],
          [column.control, 595],
          [column.control, 335],
          [680, 335],
        ],
        [[column.control, 595]],
      ),
    ]
  return [
    ...run(
      [
        [868, 535],
        [column.control, 535],
        [column.control, 335],
        [680, 335],
      ],
      [[column.control, 535]],
    ),
    wire([column.control, 535], [column.control, 592]),
    ...run(
      [
        [868, 595],
        [column.clamp, 595],
      ],
      [[column.clamp, 595]],
    ),
    ...run(
      [
        [812, rail.bias],
        [812, 365],
        [790, 365],
      ],
      [[812, rail.bias]],
    ),
  ]
}

/** Secondary winding, rectifier, filter, indicator, output terminals. */
export function outputWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const nodes = [
    ...run([
      [column.secondary, 132],
      [column.secondary, rail.outputTop],
      [990, rail.outputTop],
    ]),
    ...run([
      [column.secondary, 188],
      [column.secondary, rail.outputCommon],
      [column.output - 5, rail.outputCommon],
    ]),
    ...seriesRun(rail.outputTop, 1050, column.output - 5, ['choke'], has),
    ...shunt('outputCapacitor', rail.outputTop, rail.outputCommon),
  ]
  if (has('secondCapacitor')) nodes.push(...shunt('secondCapacitor', rail.outputTop, rail.outputCommon))
  if (has('indicator'))
    nodes.push(
      wire([column.indicator, rail.outputTop], [column.indicator, 90]),
      wire([column.indicator, 150], [column.indicator, 165]),
      wire([column.indicator, 225], [column.indicator, rail.outputCommon]),
      junction([column.indicator, rail.outputTop]),
      junction([column.indicator, rail.outputCommon]),
    )
  if (has('snubberResistor'))
    nodes.push(
      ...run(
        [
          [958, 40],
          [958, rail.outputTop],
        ],
        [[958, rail.outputTop]],
      ),
      wire([1018, 40], [1030, 40]),
      ...run(
        [
          [1090, 40],
          [1090, rail.outputTop],
        ],
        [[1090, rail.outputTop]],
      ),
    )
  return nodes
}

/** Optocoupler, shunt reference, divider and compensation, Y capacitor. */
export function feedbackWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const after = has('choke')
  const ledTap = after && model.ledFeedAfterChoke ? column.ledTap : 1100
  const senseTap = after && model.senseAfterChoke ? column.senseTap : 1111
  const x = column.ledFeed
  const cathode = 625
  const sense = 560
  const nodes = [
    ...run(
      [
        [ledTap, rail.outputTop],
        [ledTap, 295],
        [x, 295],
        [x, 410],
      ],
      [[ledTap, rail.outputTop]],
    ),
    ...run(
      [
        [senseTap, rail.outputTop],
        [senseTap, 335],
        [column.divider, 335],
        [column.divider, 390],
      ],
      [[senseTap, rail.outputTop]],
    ),
    ...run([
      [x, 470],
      [x, 535],
    ]),
    ...run([
      [x, 595],
      [x, cathode],
      [1168, cathode],
    ]),
    ...run([
      [column.divider, 450],
      [column.divider, has('trimmer') ? 570 : 630],
    ]),
    ...run(
      [
        [column.divider, sense],
        [1267, sense],
        [1267, 655],
        [1184, 655],
      ],
      [
        [column.divider, sense],
        [1267, sense],
      ],
    ),
    ...run(
      [
        [1168, 685],
        [1168, rail.feedbackCommon],
      ],
      [[1168, rail.feedbackCommon]],
    ),
    ...run(
      [
        [column.divider, rail.feedbackCommon],
        [1168, rail.feedbackCommon],
      ],
      [[column.divider, rail.feedbackCommon]],
    ),
    ...run(
      [
        [column.divider, rail.feedbackCommon],
        [column.commonReturn, rail.feedbackCommon],
        [column.commonReturn, rail.outputCommon],
      ],
      [[column.commonReturn, rail.outputCommon]],
    ),
    ...run(
      [
        [1120, cathode],
        [1120, 540],
      ],
      [[1120, cathode]],
    ),
    wire([1180, 540], [1201, 540]),
    ...run([
      [1261, 540],
      [1267, 540],
      [1267, sense],
    ]),
  ]
  if (has('highFrequencyCapacitor'))
    nodes.push(
      ...run(
        [
          [1120, 540],
          [1120, 480],
          [1160, 480],
        ],
        [[1120, 540]],
      ),
      ...run(
        [
          [1220, 480],
          [1267, 480],
          [1267, 540],
        ],
        [[1267, 540]],
      ),
    )
  if (has('biasResistor'))
    nodes.push(
      ...run(
        [
          [x, 510],
          [1045, 510],
          [1045, 535],
        ],
        [[x, 510]],
      ),
      ...run(
        [
          [1045, 595],
          [1045, cathode],
        ],
        [[1045, cathode]],
      ),
    )
  if (has('softFinishCapacitor'))
    nodes.push(
      ...run(
        [
          [1020, cathode],
          [1020, 627],
        ],
        [[1020, cathode]],
      ),
      ...run([
        [1020, 687],
        [1020, rail.feedbackCommon],
        [1168, rail.feedbackCommon],
      ]),
    )
  if (has('yCapacitor'))
    nodes.push(
      ...run(
        [
          [895, 725],
          [720, 725],
          [720, rail.primaryCommon],
        ],
        [[720, rail.primaryCommon]],
      ),
      ...run(
        [
          [955, 725],
          [1168, 725],
          [1168, rail.feedbackCommon],
        ],
        [[1168, rail.feedbackCommon]],
      ),
    )
  return nodes
}
