import type { StackLayout } from '../magnetics/stack/index.ts'
import { wireHeight_m } from '../magnetics/wire/index.ts'
import { formatQuantity, formatRange, shownUnit } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { pinGroups, pinSharing } from '../supply/pin-sharing.ts'
import { wiresAPin } from '../supply/pins-an-end.ts'
import { fightingParts } from '../supply/transformer/pins.ts'
import { around, resistanceBand } from '../supply/transformer/planned-bands.ts'
import { type Block, type Checkpoint, figureCell, type Step, strong, tick, words } from './document.ts'
import { type WindingStep, windingSteps } from './winding-steps.ts'

/** Turns in one box of the tally strip, fewer where there are few turns. */
const tallyGroups = [1, 2, 5, 10, 20] as const
/** Boxes that fit one line of the printed sheet. */
const mostBoxes = 21

const layersOf = (count: number) => (count === 1 ? '1 layer' : `${count} layers`)

/** Planned resistance at 20 °C of each part of each winding: the winding's, shared by length of wire. */
function partResistance(evaluation: Evaluation, layout: StackLayout, step: WindingStep): number {
  const { coil } = evaluation.design.transformer
  const { winding, cutLength_m } = step.section
  const whole = winding === 'primary' ? coil.primary : winding === 'secondary' ? coil.secondary : coil.bias
  let length_m = 0
  for (const section of layout.sections) if (section.winding === winding) length_m += section.cutLength_m
  return (whole.dcResistance_ohm * cutLength_m) / length_m
}

function checkpoints(evaluation: Evaluation, layout: StackLayout, step: WindingStep): Checkpoint[] {
  const { startPin, finishPin, turns } = step.section
  const { inductanceFactor_H, plannedInductance_H: planned } = evaluation.design.transformer
  const resistance = partResistance(evaluation, layout, step)
  const share = (inductanceFactor_H * turns ** 2) / planned.typical
  const pins = startPin === null || finishPin === null ? 'of this part' : `pins ${startPin}–${finishPin}`
  return [
    {
      what: `R ${pins}`,
      expect: formatRange(...around(resistance, resistanceBand), 'ohm'),
      unit: shownUnit(resistance, 'ohm'),
    },
    {
      what: 'L on the core',
      expect: formatRange(planned.minimum * share, planned.maximum * share, 'H'),
      unit: shownUnit(planned.typical * share, 'H'),
    },
  ]
}

/** How many wires come to one pin, where they are more than one pin takes. */
function pinWords({ design }: Evaluation, winding: string): string {
  const share = pinSharing(design).find((s) => s.winding === winding)
  if (!share || (share.pins === 1 && share.wiresOnPin <= wiresAPin)) return ''
  return share.wiresOnPin <= wiresAPin
    ? `${share.inHand} wires, at most ${share.wiresOnPin} a pin; the board joins the pins of an end, a bare wire for readings.`
    : `${share.inHand} WIRES DO NOT GO ON THE PINS: bring each end out as flying leads, soldered to the board.`
}

/** How high the margins are filled beside each layer of wire; their width stands in the rules. */
const marginWords = ({ input }: StackLayout, { section }: WindingStep): string =>
  input.margin_m > 0
    ? `Margins ${formatQuantity(wireHeight_m(input.wires[section.winding]!.wire), 'm', 2)} high.`
    : ''

/** The pins of one end, the one that it is named after first. */
function endWords({ design }: Evaluation, pin: number | null): string {
  if (pin === null) return 'joint'
  const group = pinGroups(design).get(pin)
  return group ? group.join(', ') : `pin ${pin}`
}

/** What becomes of the joint with the next part of a split winding: nothing else may touch it. */
const jointWords = (pin: number | null, next: string): string =>
  pin === null
    ? `Joint with the start of ${next}, on no pin: twist and solder the ends, sleeve them, lay them flat under the tape, leave them unused.`
    : `Joint with the start of ${next} on pin ${pin}: sleeve both leads, cut the pin short, leave it unused.`

function notes(
  evaluation: Evaluation,
  step: WindingStep,
  layout: StackLayout,
  fighting: readonly string[],
): string[] {
  const { section } = step
  const { construction } = layout.input.wires[section.winding]!.wire
  return [
    marginWords(layout, step),
    fighting.includes(step.name) ? 'THIS PART TURNS AGAINST THE REST OF ITS WINDING: change its sense.' : '',
    construction === 'foil' ? 'Film under each turn of foil; solder the leads on flat.' : '',
    step.layers.length > 1 && step.tapeInside > 0
      ? `${layersOf(step.tapeInside)} of tape between its layers.`
      : '',
    step.joinsNext ? jointWords(section.finishPin, step.joinsNext) : '',
    step.shieldPin === null
      ? ''
      : `Shield: foil, its ends lapped but insulated from each other, one lead to pin ${step.shieldPin}.`,
    pinWords(evaluation, section.winding),
    step.tapeAfter > 0
      ? `${step.outermost ? 'Over all' : 'Then'}: ${layersOf(step.tapeAfter)} of tape.`
      : step.outermost
        ? 'No tape over it.'
        : 'NO TAPE before the next step.',
  ].filter((note) => note !== '')
}

/** Turns of the layers in order, `15 + 15 + 2`; from three alike on as `3 × 15 + 2`. */
function layerWords(layers: readonly number[]): string {
  if (layers.length === 1) return 'one layer'
  const alike = layers.findIndex((turns) => turns !== layers[0])
  const run = alike < 0 ? layers.length : alike
  return run < 3 ? layers.join(' + ') : [`${run} × ${layers[0]}`, ...layers.slice(run)].join(' + ')
}

/** The finest tally that fits one line. */
const groupOf = (turns: number): number => tallyGroups.find((size) => turns / size <= mostBoxes) ?? 50

function windStep(
  evaluation: Evaluation,
  layout: StackLayout,
  step: WindingStep,
  fighting: readonly string[],
): Step {
  const { section } = step
  let laid = 0
  const layerEnds = step.layers.map((turns) => {
    laid += turns
    return laid
  })
  return {
    number: step.number,
    cells: [
      tick,
      strong(`${step.number}  ${step.name}`),
      words((step.inHand > 1 ? `${step.wire} × ${step.inHand}` : step.wire).replaceAll(' ', '\u00a0')),
      figureCell(`${step.inHand} × ${section.cutLength_m.toFixed(2)} m`),
      strong(String(section.turns)),
      words(layerWords(step.layers)),
      words(endWords(evaluation, section.startPin)),
      words(endWords(evaluation, section.finishPin)),
      words(section.direction === 'clockwise' ? 'clockwise' : 'counter-cl.'),
    ],
    tally:
      section.turns > 3
        ? { label: step.name, count: section.turns, every: groupOf(section.turns), layerEnds }
        : null,
    notes: notes(evaluation, step, layout, fighting),
    checks: checkpoints(evaluation, layout, step),
  }
}

/** The table of winding steps, from the former outward, each with its tally, its tape and its readings. */
export function windingStepBlock(evaluation: Evaluation): Extract<Block, { kind: 'steps' }> {
  const { layout } = evaluation.design.transformer.coil
  const fighting = fightingParts(layout.sections)
  return {
    kind: 'steps',
    caption: '',
    columns: [
      { title: '' },
      { title: 'Step' },
      { title: 'Wire × in hand' },
      { title: 'Cut', number: true },
      { title: 'Turns', number: true },
      { title: 'by layer' },
      { title: 'Start' },
      { title: 'Finish' },
      { title: 'Sense' },
    ],
    steps: windingSteps(layout).map((step) => windStep(evaluation, layout, step, fighting)),
  }
}
