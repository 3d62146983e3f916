import { insulationBetween } from '../magnetics/stack/index.ts'
import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { crowdedPins } from '../supply/transformer/pins.ts'
import { coreFittingStep, gapWords } from './core-fitting.ts'
import type { Block, Paper } from './document.ts'
import { foot, subtitle } from './heading.ts'
import { overlap_m } from './lengths.ts'
import { testCard } from './test-card.ts'
import { windingStepBlock } from './winding-step-block.ts'

const millimetres = (length_m: number) => formatQuantity(length_m, 'm')

/** Turns of any wire that show before the first step whether the core has its gap. */
const testTurns = 10
/** Difference of tape and former that needs no word. Common practice, no source. */
const tapeSlack_m = 0.5e-3

/** What must be at hand before the first turn. */
function facts(evaluation: Evaluation): Block {
  const { transformer: t, parts } = evaluation.design
  const { layout } = t.coil
  const { minimum, maximum } = t.plannedInductance_H
  const tested = (testTurns / t.primaryTurns) ** 2
  return {
    kind: 'facts',
    facts: [
      { label: 'Core', value: `${parts.core.size}, ${parts.material.class}` },
      {
        label: 'Former',
        value: `${parts.former.rowOne} + ${parts.former.rowTwo} pins, ${millimetres(parts.former.width_m)} wide`,
      },
      {
        label: 'Tape',
        value: `${millimetres(parts.tape.width_m)} × ${millimetres(parts.tape.thickness_m)}, ${millimetres(overlap_m)} over its own start`,
      },
      { label: 'Gap', value: gapWords(evaluation) },
      {
        label: 'Inductance',
        value: `${formatRange(minimum, maximum, 'H')}; ${testTurns} test turns ${formatRange(minimum * tested, maximum * tested, 'H')}`,
      },
      {
        label: 'Height',
        value: `${millimetres(layout.build_m)} of ${millimetres(layout.windowHeight_m)}, ${Math.round(layout.fill * 100)} %`,
      },
    ],
  }
}

/** How tape that is narrower or wider than the former is laid. */
function tapeRule(tape_m: number, former_m: number): string {
  if (tape_m < former_m - tapeSlack_m)
    return `Tape of ${millimetres(tape_m)} does not cover this former: lap two runs, one to each flange, or take wider tape.`
  if (tape_m > former_m + tapeSlack_m)
    return `Slit the tape of ${millimetres(tape_m)} to ${millimetres(former_m)}: from flange to flange, over the margins too.`
  return ''
}

/** Rules that hold for every step. */
function rules(evaluation: Evaluation): string[] {
  const { transformer: t, parts } = evaluation.design
  const { layout } = t.coil
  const first = layout.tapes.find((tape) => tape.between === 'entries')
  const before = first && first.entry < layout.sections[0]!.entry ? first.layers : 0
  const tail = formatQuantity(layout.input.tail_m, 'm', 2)
  return [
    `Gap the core first, by the test turns. Sense: seen from above, pins away from you (lying former: from the flange of pin 1). ● dotted end. Layers go there and back uncut; spread a part layer out. Wires in hand lie side by side and join at both pins. Lengths hold ${tail} of tail at each end.`,
    Object.values(layout.input.wires).some(({ wire }) => wire.construction === 'litz')
      ? 'Tin every strand of litz at its ends.'
      : '',
    before > 0
      ? `Before step 1: ${before === 1 ? '1 layer' : `${before} layers`} of tape on the former.`
      : '',
    tapeRule(parts.tape.width_m, parts.former.width_m),
    t.margin_m > 0
      ? `Margins: before each layer of wire lay tape of ${millimetres(t.margin_m)} at both flanges, as high as its step says; no turn enters it. Sleeving of 0.4 mm wall or more on every lead from winding to pin.`
      : 'No margins: the triple-insulated wire is the barrier. Keep it whole up to the pin; sleeve enamelled leads that cross another winding.',
  ].filter((rule) => rule !== '')
}

/** Pins that this plan gives to two nets at once: do not wind before it is changed. */
function crowding(evaluation: Evaluation): Block[] {
  return crowdedPins(evaluation.design.transformer.coil.layout.sections).map(({ pin, nets }) => ({
    kind: 'caution',
    text: `PIN ${pin} IS GIVEN TWICE, to ${nets.join(' and to ')}: a short. Change the pins in the build before you wind.`,
  }))
}

/** What lies between the sides, and what no reading here proves. */
function barrierWords(evaluation: Evaluation): string {
  const pairs = insulationBetween(evaluation.design.transformer.coil.layout).filter(
    (pair) => (pair.from === 'secondary') !== (pair.to === 'secondary'),
  )
  const fewest = Math.min(...pairs.map((pair) => pair.tapeLayers))
  const wire = pairs.every((pair) => pair.reinforcedWire) ? ' and triple-insulated wire' : ''
  return `Between the sides, where least: ${fewest === 1 ? '1 layer' : `${fewest} layers`} of tape${wire}. No reading here certifies insulation. A withstand (hipot) test is a shock hazard itself: screened, current-limited, then discharged; its voltage and who may do it by the local code.`
}

/** Winding sheet: everything needed at the winder, from the former outward, with readings to check at each stage. */
export function windingSheet(evaluation: Evaluation): Paper {
  const block = windingStepBlock(evaluation)
  return {
    id: 'winding-sheet',
    title: 'Winding sheet',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      { kind: 'blanks', labels: ['Coil no.', 'Wound by', 'Date', 'Changes to this sheet'] },
      facts(evaluation),
      ...crowding(evaluation),
      {
        kind: 'columns',
        widths: [3, 2],
        columns: [
          [{ kind: 'figure', figure: 'winding-section', caption: '' }],
          [{ kind: 'figure', figure: 'winding-connections', caption: '' }],
        ],
      },
      {
        kind: 'columns',
        columns: [
          [{ kind: 'figure', figure: 'former-pins', caption: '' }],
          [{ kind: 'figure', figure: 'former-above', caption: '' }],
        ],
      },
      { ...block, steps: [...block.steps, coreFittingStep(evaluation, block.steps.length + 1)] },
      ...testCard(evaluation),
      { kind: 'list', items: rules(evaluation), ticked: false },
      { kind: 'caution', text: barrierWords(evaluation) },
      { kind: 'blanks', labels: ['Withstand test at, V', 'for, s', 'result, or why not done', 'by'] },
    ],
  }
}
