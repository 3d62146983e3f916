import type { Place } from '../supply/build.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { reference, type Spot } from '../supply/refs.ts'
import type { Block, Paper } from './document.ts'
import { foot, subtitle } from './heading.ts'

interface Stage {
  readonly title: string
  readonly spots: readonly Spot[]
  /** What to check before the next stage. */
  readonly proof: string
}

/** Order of populating: flat and insulating things first, then side by side what can be tested by itself. */
const stages: readonly Stage[] = [
  {
    title: 'Feedback, on the secondary side',
    spots: [
      'dividerTop',
      'dividerBottom',
      'trimmer',
      'ledResistor',
      'biasResistor',
      'reference',
      'compensationResistor',
      'compensationCapacitor',
      'highFrequencyCapacitor',
      'softFinishCapacitor',
      'optocoupler',
    ],
    proof:
      'Back-feed the output from a bench supply, mains off: the reference pulls at the set voltage and not below.',
  },
  {
    title: 'Output side',
    spots: [
      'rectifier',
      'rectifierHeatsink',
      'rectifierPad',
      'snubberResistor',
      'snubberCapacitor',
      'outputCapacitor',
      'choke',
      'secondCapacitor',
      'indicatorResistor',
      'indicator',
    ],
    proof: 'Diode test across D4 one way only; no short at the output.',
  },
  {
    title: 'Input side',
    spots: ['fuse', 'ntc', 'varistor', 'xCapacitor', 'bleed', 'commonModeChoke', 'bridge', 'bulkCapacitor'],
    proof: 'No short from L to N, nor across C2 once it has charged from the meter.',
  },
  {
    title: 'Switcher, bias and clamp',
    spots: [
      'switcher',
      'switcherHeatsink',
      'switcherPad',
      'controlCapacitor',
      'biasDiode',
      'biasCapacitor',
      'clampResistor',
      'clampCapacitor',
      'clampDiode',
      'clampAvalanche',
    ],
    proof: 'U1 drain to source: no short. D1 and D3 the right way round by diode test.',
  },
  {
    title: 'Transformer and barrier, last',
    spots: ['transformer', 'yCapacitor'],
    proof:
      'Test card complete and within its bands; pin 1 where the board says; barrier walked with a ruler, and nothing across it that the schematic does not show there.',
  },
]

/** Spots that the design fills. */
function filled({ design }: Evaluation): (spot: Spot) => boolean {
  const { feedback, clamp, supply } = design
  const values: Partial<Record<Spot, boolean>> = {
    clampResistor: clamp.style === 'resistor-capacitor',
    clampCapacitor: clamp.style === 'resistor-capacitor',
    clampAvalanche: clamp.style === 'avalanche',
    bleed: design.bleed_ohm > 0,
    snubberResistor: supply.build.snubber !== null,
    snubberCapacitor: supply.build.snubber !== null,
    highFrequencyCapacitor: feedback.highFrequencyCapacitor_F > 0,
    softFinishCapacitor: feedback.softFinishCapacitor_F > 0,
    indicatorResistor: design.indicatorResistor_ohm > 0,
  }
  return (spot) => values[spot] ?? (spot in design.parts ? design.parts[spot as Place] !== null : true)
}

/** Order of populating the board, and what is left out for the first stages of the power-up. */
export function buildOrder(evaluation: Evaluation): Paper {
  const has = filled(evaluation)
  const references = (spots: readonly Spot[]) => [
    ...new Set(spots.filter(has).map((spot) => reference[spot])),
  ]
  const blocks: Block[] = stages.flatMap((stage, index): Block[] => [
    { kind: 'heading', text: `${index + 1}  ${stage.title}` },
    {
      kind: 'list',
      ticked: true,
      items: [`Fit ${references(stage.spots).join(', ')}.`, `Then: ${stage.proof}`],
    },
  ])
  const clamp = evaluation.design.clamp.style === 'avalanche' ? 'D1 and D2' : 'D1, R2 and C3'
  return {
    id: 'build-order',
    title: 'Build order',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      ...blocks,
      { kind: 'heading', text: 'Leave out at first' },
      {
        kind: 'list',
        ticked: true,
        items: [
          `For reading inductance in place: U1, D4 and ${clamp} stay out; else they load the windings.`,
          'For the back-feed test of the feedback: mains unplugged and C2 discharged; D4 keeps the bench supply out of T1.',
          'Before the power-up plan, if you like: input side alone through the lamp with U1 out, which proves bulk volts and discharge with nothing switching. The plan itself has everything fitted.',
          'For the first switching: load off, output terminals free; what you care about stays unplugged until overshoot is known.',
          'Never leave out at a powered stage: fuse, clamp, output capacitor, optocoupler path. Without clamp or feedback the switch or the output goes first.',
        ],
      },
      {
        kind: 'caution',
        text: 'From the input side on, C2 holds a lethal charge after every test. Unplug, discharge through a resistor, measure, then touch. One hand; isolated source; not alone.',
      },
    ],
  }
}
