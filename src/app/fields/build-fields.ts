import type { Spot } from '../../engine/supply/refs.ts'
import { buildStrings } from '../strings/build.ts'
import { type BuildRow, check, choice, free, given, part, whole } from './build-rows.ts'

const { help } = buildStrings

export interface BuildSection {
  readonly id: keyof typeof buildStrings.sections
  readonly rows: readonly BuildRow[]
}

/** Every part and free choice of a build, in the order in which a builder meets them. */
export const buildSections: readonly BuildSection[] = [
  {
    id: 'switch',
    rows: [
      part('switcher'),
      choice('clampStyle', ['clamp', 'style'], buildStrings.clampStyle, help.clampStyle),
      part('clampDiode'),
      part('clampAvalanche'),
      free('clampVoltage_V', ['clamp', 'voltage_V'], 'V', (d) => d.clamp.voltage_V, [], help.clampVoltage_V),
      free(
        'clampResistor_ohm',
        ['clamp', 'resistor_ohm'],
        'Ω',
        (d) => d.clamp.resistor_ohm,
        ['clampResistor'],
        help.clampResistor_ohm,
      ),
      free(
        'clampCapacitor_F',
        ['clamp', 'capacitor_F'],
        'F',
        (d) => d.clamp.capacitor_F,
        ['clampCapacitor'],
        help.clampCapacitor_F,
      ),
    ],
  },
  {
    id: 'transformer',
    rows: [
      part('core'),
      part('material'),
      part('former'),
      free(
        'reflectedVoltage_V',
        ['transformer', 'reflectedVoltage_V'],
        'V',
        (d) => d.transformer.aimedReflectedVoltage_V,
        ['transformer'],
        help.reflectedVoltage_V,
      ),
      free(
        'rippleRatio',
        ['transformer', 'rippleRatio'],
        '',
        (d) => d.transformer.rippleRatio,
        [],
        help.rippleRatio,
      ),
      whole(
        'primaryTurns',
        ['transformer', 'primaryTurns'],
        '',
        (d) => d.transformer.primaryTurns,
        ['primary'],
        help.turns,
      ),
      whole(
        'secondaryTurns',
        ['transformer', 'secondaryTurns'],
        '',
        (d) => d.transformer.secondaryTurns,
        ['secondary'],
        help.turns,
      ),
      whole(
        'biasTurns',
        ['transformer', 'biasTurns'],
        '',
        (d) => d.transformer.biasTurns,
        ['bias'],
        help.turns,
      ),
      choice('gapPlace', ['transformer', 'gapPlace'], buildStrings.gapPlace, help.gapPlace),
      free('gap_m', ['transformer', 'gap_m'], 'm', (d) => d.transformer.gap_m, [], help.gap_m),
      part('spacerFilm'),
    ],
  },
  {
    id: 'windings',
    rows: [
      part('primaryWire'),
      whole(
        'primaryInHand',
        ['transformer', 'primaryInHand'],
        '',
        (d) => d.transformer.primaryInHand,
        [],
        help.inHand,
      ),
      part('secondaryWire'),
      whole(
        'secondaryInHand',
        ['transformer', 'secondaryInHand'],
        '',
        (d) => d.transformer.secondaryInHand,
        [],
        help.inHand,
      ),
      part('biasWire'),
      whole(
        'biasInHand',
        ['transformer', 'biasInHand'],
        '',
        (d) => d.transformer.biasInHand,
        [],
        help.inHand,
      ),
      check('splitPrimary', ['transformer', 'splitPrimary'], help.splitPrimary),
      choice('insulation', ['transformer', 'insulation'], buildStrings.insulation, help.insulation),
      free('margin_m', ['transformer', 'margin_m'], 'm', (d) => d.transformer.margin_m, [], help.margin_m),
      part('tape'),
      given('tapeBarrier', ['transformer', 'tapeBarrier'], [], help.tape),
      given('tapeLayer', ['transformer', 'tapeLayer'], [], help.tape),
      given('tapeOuter', ['transformer', 'tapeOuter'], [], help.tape),
    ],
  },
  {
    id: 'output',
    rows: [
      part('rectifier'),
      { is: 'snubber' },
      part('outputCapacitor', 'outputCount'),
      part('choke'),
      part('chokeWire'),
      whole('chokeTurns', ['chokeTurns'], '', (d) => d.chokeTurns, [], help.choke),
      whole('chokeInHand', ['chokeInHand'], '', (d) => d.chokeInHand, [], help.inHand),
      part('secondCapacitor', 'secondCount'),
    ],
  },
  {
    id: 'input',
    rows: [
      part('fuse'),
      part('ntc'),
      part('varistor'),
      part('xCapacitor'),
      free('bleed_ohm', ['bleed_ohm'], 'Ω', (d) => d.bleed_ohm, ['bleed'], help.bleed_ohm),
      part('commonModeChoke'),
      part('bridge'),
      part('bulkCapacitor', 'bulkCount'),
      part('yCapacitor'),
    ],
  },
  {
    id: 'feedback',
    rows: [
      part('optocoupler'),
      part('reference'),
      part('trimmer'),
      free(
        'dividerTop_ohm',
        ['feedback', 'dividerTop_ohm'],
        'Ω',
        (d) => d.feedback.dividerTop_ohm,
        ['dividerTop'],
        help.divider,
      ),
      free(
        'dividerBottom_ohm',
        ['feedback', 'dividerBottom_ohm'],
        'Ω',
        (d) => d.feedback.dividerBottom_ohm,
        ['dividerBottom'],
        help.divider,
      ),
      free(
        'ledResistor_ohm',
        ['feedback', 'ledResistor_ohm'],
        'Ω',
        (d) => d.feedback.ledResistor_ohm,
        ['ledResistor'],
        help.ledResistor_ohm,
      ),
      free(
        'biasResistor_ohm',
        ['feedback', 'biasResistor_ohm'],
        'Ω',
        (d) => d.feedback.biasResistor_ohm,
        ['biasResistor'],
        help.biasResistor_ohm,
      ),
      free(
        'compensationResistor_ohm',
        ['feedback', 'compensationResistor_ohm'],
        'Ω',
        (d) => d.feedback.compensationResistor_ohm,
        ['compensationResistor'],
        help.compensation,
      ),
      free(
        'compensationCapacitor_F',
        ['feedback', 'compensationCapacitor_F'],
        'F',
        (d) => d.feedback.compensationCapacitor_F,
        ['compensationCapacitor'],
        help.compensation,
      ),
      free(
        'highFrequencyCapacitor_F',
        ['feedback', 'highFrequencyCapacitor_F'],
        'F',
        (d) => d.feedback.highFrequencyCapacitor_F,
        ['highFrequencyCapacitor'],
        help.compensation,
      ),
      free(
        'softFinishCapacitor_F',
        ['feedback', 'softFinishCapacitor_F'],
        'F',
        (d) => d.feedback.softFinishCapacitor_F,
        ['softFinishCapacitor'],
        help.compensation,
      ),
      check('senseAfterChoke', ['feedback', 'senseAfterChoke'], help.sense),
      check('ledFeedAfterChoke', ['feedback', 'ledFeedAfterChoke'], help.sense),
    ],
  },
  {
    id: 'bias',
    rows: [
      free(
        'biasVoltage_V',
        ['transformer', 'biasVoltage_V'],
        'V',
        (d) => d.biasVoltage_V,
        [],
        help.biasVoltage_V,
      ),
      part('biasDiode'),
      part('biasCapacitor'),
      part('indicator'),
      free(
        'indicatorResistor_ohm',
        ['indicatorResistor_ohm'],
        'Ω',
        (d) => d.indicatorResistor_ohm,
        ['indicatorResistor'],
        help.indicatorResistor_ohm,
      ),
    ],
  },
  {
    id: 'heat',
    rows: [part('switcherHeatsink'), part('switcherPad'), part('rectifierHeatsink'), part('rectifierPad')],
  },
]

const spotsOf = (row: BuildRow): readonly Spot[] => {
  if (row.is === 'part') return [row.place]
  if (row.is === 'number') return row.spots
  if (row.is === 'snubber') return ['snubberResistor', 'snubberCapacitor']
  return []
}

/** The section in which a spot can be changed; null for the ends of the supply, which are of the need. */
export const sectionOfSpot = (spot: Spot): BuildSection['id'] | null =>
  buildSections.find((section) => section.rows.some((row) => spotsOf(row).includes(spot)))?.id ?? null
