import { el, group, type SvgNode } from '../svg/node.ts'
import { label, type Point } from '../svg/path.ts'
import {
  bridgeBlock,
  commonModeBlock,
  optocouplerBlock,
  referenceBlock,
  switcherBlock,
  transformerBlock,
} from './blocks.ts'
import { column, rail, type Seat, seats, sheet } from './layout.ts'
import { type SchematicItem, type SchematicModel, type Spot, spots } from './model.ts'
import {
  avalanche,
  capacitor,
  choke,
  dependentResistor,
  diode,
  fuse,
  lightDiode,
  placed,
  polarised,
  resistor,
  terminal,
} from './symbols.ts'
import { feedbackWiring, inputWiring, outputWiring, primaryWiring } from './wiring.ts'

const symbolAt: Record<Spot, () => SvgNode> = {
  fuse,
  ntc: () => dependentResistor('−t°'),
  varistor: () => dependentResistor('U'),
  xCapacitor: capacitor,
  bleed: resistor,
  commonModeChoke: commonModeBlock,
  bridge: bridgeBlock,
  bulkCapacitor: polarised,
  clampResistor: resistor,
  clampCapacitor: capacitor,
  clampAvalanche: avalanche,
  clampDiode: diode,
  transformer: () => group({}),
  switcher: switcherBlock,
  controlCapacitor: polarised,
  biasDiode: diode,
  biasCapacitor: polarised,
  optocoupler: optocouplerBlock,
  rectifier: diode,
  snubberResistor: resistor,
  snubberCapacitor: capacitor,
  outputCapacitor: polarised,
  choke,
  secondCapacitor: polarised,
  indicatorResistor: resistor,
  indicator: lightDiode,
  ledResistor: resistor,
  biasResistor: resistor,
  reference: referenceBlock,
  compensationResistor: resistor,
  compensationCapacitor: capacitor,
  highFrequencyCapacitor: capacitor,
  softFinishCapacitor: polarised,
  dividerTop: resistor,
  trimmer: () =>
    group({}, resistor(), el('path', { class: 'symbol', d: 'M-13 13L13-13M7-13H13V-7', fill: 'none' })),
  dividerBottom: resistor,
  yCapacitor: capacitor,
}

const words = (seat: Seat, item: SchematicItem): SvgNode => {
  const x = seat.centre[0] + seat.words[0]
  const y = seat.centre[1] + seat.words[1]
  const lines: SvgNode[] = [
    label([x, y], item.reference, 'reference', seat.anchor),
    label([x, y + 14], item.value, 'value', seat.anchor),
  ]
  if (item.reading) lines.push(label([x, y + 28], item.reading, 'reading', seat.anchor))
  return group({}, ...lines)
}

/** Area in which a part answers to pointer and focus. */
const hitArea = (spot: Spot): SvgNode => {
  const { centre, quarterTurns } = seats[spot]
  const [w, h] =
    spot === 'switcher'
      ? [110, 100]
      : spot === 'bridge'
        ? [64, 132]
        : spot === 'optocoupler'
          ? [154, 88]
          : quarterTurns % 2
            ? [34, 60]
            : [60, 34]
  if (spot === 'transformer')
    return el('rect', { class: 'hit', x: column.winding - 16, y: 104, width: 84, height: 402, rx: 4 })
  return el('rect', { class: 'hit', x: centre[0] - w / 2, y: centre[1] - h / 2, width: w, height: h, rx: 4 })
}

function partNode(model: SchematicModel, spot: Spot, symbol: SvgNode): SvgNode | null {
  const item = model.items[spot]
  if (!item) return null
  const standing = item.standing ?? 'holds'
  const seat = seats[spot]
  const spoken =
    item.description ?? `${item.reference}, ${item.value}${item.reading ? `, ${item.reading}` : ''}`
  return group(
    { class: `part is-${standing}`, 'data-spot': spot, role: 'button', tabindex: 0, 'aria-label': spoken },
    hitArea(spot),
    spot === 'transformer' ? transformerBlock(model) : placed(symbol, seat.centre, seat.quarterTurns),
    words(seat, item),
    standing === 'holds'
      ? null
      : label(
          [seat.centre[0] + seat.words[0], seat.centre[1] + seat.words[1] - 14],
          standing === 'broken' ? '▲ over limit' : '△ close',
          'flag',
          seat.anchor,
        ),
  )
}

const nodePoint: Record<
  'input' | 'bulk' | 'drain' | 'bias' | 'output' | 'primaryCommon' | 'outputCommon',
  Point
> = {
  input: [column.terminal - 12, 84],
  bulk: [612, rail.primaryTop - 8],
  drain: [745, rail.drain + 22],
  bias: [800, rail.bias - 8],
  output: [column.output - 30, rail.outputTop - 14],
  primaryCommon: [612, rail.primaryCommon + 30],
  outputCommon: [column.output - 60, rail.outputCommon + 18],
}

/** The whole flyback circuit as one drawing: symbols, references, values, live readings, barrier and test points. */
export function schematic(model: SchematicModel): SvgNode {
  const live = (['input', 'bulk', 'drain', 'bias', 'output'] as const).map((node) => {
    const reading = model.nodes[node]
    return reading
      ? label(
          nodePoint[node],
          reading,
          'node',
          node === 'output' ? 'middle' : node === 'bias' ? 'end' : 'start',
        )
      : null
  })
  const points = (model.testPoints ?? []).map(({ name, node }) => {
    const [x, y] = nodePoint[node]
    return label([x, y - 14], `◎ ${name}`, 'test-point')
  })
  const inputNames = model.source === 'mains' ? ['L', 'N'] : ['+', '−']
  return el(
    'svg',
    {
      class: 'schematic',
      viewBox: `0 ${sheet.top} ${sheet.width} ${sheet.height - sheet.top}`,
      role: 'group',
      'aria-label': model.title,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    el('title', {}, model.title),
    el('line', { class: 'barrier', x1: column.barrier, y1: 0, x2: column.barrier, y2: sheet.height - 14 }),
    label([column.barrier - 10, sheet.height - 8], 'primary: live', 'side', 'end'),
    label([column.barrier + 10, sheet.height - 8], 'secondary: isolated', 'side'),
    group(
      { class: 'wires' },
      ...inputWiring(model),
      ...primaryWiring(model),
      ...outputWiring(model),
      ...feedbackWiring(model),
    ),
    placed(terminal(), [column.terminal, rail.line]),
    placed(terminal(), [column.terminal, rail.neutral]),
    label([column.terminal - 12, rail.line + 5], inputNames[0]!, 'pin', 'end'),
    label([column.terminal - 12, rail.neutral + 5], inputNames[1]!, 'pin', 'end'),
    placed(terminal(), [column.output, rail.outputTop]),
    placed(terminal(), [column.output, rail.outputCommon]),
    label([column.output + 12, rail.outputTop + 5], '+', 'pin'),
    label([column.output + 12, rail.outputCommon + 5], '−', 'pin'),
    ...spots.map((spot) => partNode(model, spot, symbolAt[spot]())),
    ...live,
    ...points,
  )
}
