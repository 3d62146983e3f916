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
import { column, rail, seats, sheet } from './layout.ts'
import { type SchematicModel, type Spot, spots, type TestNode } from './model.ts'
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
import { titleBlock } from './title-block.ts'
import { feedbackWiring } from './wiring/feedback.ts'
import { inputWiring } from './wiring/input.ts'
import { outputWiring } from './wiring/output.ts'
import { primaryWiring } from './wiring/primary.ts'
import { partWords } from './words.ts'

const symbolAt: Record<Spot, () => SvgNode> = {
  fuse,
  ntc: () => dependentResistor('−t°'),
  varistor: () => dependentResistor('U', 1),
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
  switcher: () => group({}),
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
    spot === 'transformer'
      ? transformerBlock(model)
      : placed(spot === 'switcher' ? switcherBlock(model.control) : symbol, seat.centre, seat.quarterTurns),
    partWords(seat, item),
  )
}

/** Where the reading of each node is written. */
const readingAt: Record<keyof SchematicModel['nodes'], { at: Point; anchor: 'start' | 'middle' | 'end' }> = {
  input: { at: [column.terminal - 12, 62], anchor: 'start' },
  bulk: { at: [612, rail.primaryTop - 9], anchor: 'start' },
  drain: { at: [748, rail.drain + 20], anchor: 'start' },
  bias: { at: [802, rail.bias - 11], anchor: 'end' },
  output: { at: [column.output + 10, rail.outputTop - 16], anchor: 'end' },
}

/** Where each node is probed: a ring on its wire, and its name from there. */
const probeAt: Record<TestNode, { at: Point; words: Point; anchor: 'start' | 'end' }> = {
  primaryCommon: { at: [612, rail.primaryCommon], words: [0, 22], anchor: 'start' },
  bulk: { at: [850, rail.primaryTop], words: [-12, 22], anchor: 'start' },
  drain: { at: [836, rail.drain], words: [0, -10], anchor: 'start' },
  bias: { at: [812, rail.bias], words: [-10, 5], anchor: 'end' },
  output: { at: [1475, rail.outputTop], words: [8, 20], anchor: 'end' },
  outputCommon: { at: [1480, rail.outputCommon], words: [-12, 22], anchor: 'start' },
}

/** The whole flyback circuit as one drawing: symbols, references, values, live readings, barrier and test points. */
export function schematic(model: SchematicModel): SvgNode {
  const live = Object.entries(readingAt).map(([node, { at, anchor }]) => {
    const reading = model.nodes[node as keyof SchematicModel['nodes']]
    return reading ? label(at, reading, 'node', anchor) : null
  })
  const points = (model.testPoints ?? []).flatMap(({ name, node }) => {
    const { at, words, anchor } = probeAt[node]
    return [
      el('circle', { class: 'probe', cx: at[0], cy: at[1], r: 5.5 }),
      label([at[0] + words[0], at[1] + words[1]], name, 'test-point', anchor),
    ]
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
    el('line', { class: 'barrier', x1: column.barrier, y1: -30, x2: column.barrier, y2: sheet.height - 14 }),
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
    model.titleBlock ? titleBlock(model.titleBlock, model.testPoints ?? []) : null,
  )
}
