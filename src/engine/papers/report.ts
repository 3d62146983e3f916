import { type Limit, roomInWords } from '../limits/limit.ts'
import { formatQuantity } from '../quantity/index.ts'
import { type ConditionId, conditionById } from '../supply/condition.ts'
import { at, type Evaluation, modeInWords } from '../supply/evaluation.ts'
import { infoOf, type ReadingKey } from '../supply/reading.ts'
import { reference } from '../supply/refs.ts'
import { type Block, figureCell, type Paper, strong, words } from './document.ts'
import { foot, inputWords, subtitle } from './heading.ts'
import { railTable } from './rails.ts'
import { withUnit } from './with-unit.ts'

/** Conditions that a report shows side by side. */
const columns: readonly { readonly id: ConditionId; readonly title: string }[] = [
  { id: 'minimum-100', title: 'Lowest input, full' },
  { id: 'nominal-100', title: 'Usual input, full' },
  { id: 'maximum-100', title: 'Highest input, full' },
  { id: 'maximum-0', title: 'Highest input, none' },
  { id: 'overload-maximum', title: 'At the current limit' },
]

const shown: readonly ReadingKey[] = [
  'bulkMinimum_V',
  'bulkPeak_V',
  'input_W',
  'inputCurrent_Arms',
  'frequency_Hz',
  'duty',
  'primaryPeak_A',
  'primary_Arms',
  'secondaryPeak_A',
  'secondary_Arms',
  'drainPeak_V',
  'fluxPeak_T',
  'output_V',
  'outputRipple_Vpp',
  'bias_V',
  'switchJunction_C',
  'rectifierJunction_C',
  'transformer_C',
  'outputCapacitor_C',
  'loss_W',
  'efficiency',
]

const losses: readonly ReadingKey[] = [
  'switch_W',
  'rectifier_W',
  'core_W',
  'primaryCopper_W',
  'secondaryCopper_W',
  'clamp_W',
  'clampDiode_W',
  'bridge_W',
  'ntc_W',
  'fuse_W',
  'bulkCapacitor_W',
  'outputCapacitor_W',
  'choke_W',
  'snubber_W',
  'feedback_W',
  'indicator_W',
]

function needFacts(evaluation: Evaluation): Block {
  const { need, supply } = evaluation.design
  return {
    kind: 'facts',
    facts: [
      { label: 'Input', value: inputWords(evaluation) },
      {
        label: 'Output',
        value: `${formatQuantity(need.output_V, 'V')} ${formatQuantity(need.output_A, 'A')}, trim ${formatQuantity(need.trimLow_V, 'V')} to ${formatQuantity(need.trimHigh_V, 'V')}`,
      },
      { label: 'Ripple', value: `${formatQuantity(need.ripple_Vpp, 'V')} peak to peak` },
      { label: 'Hold-up', value: formatQuantity(need.holdUp_s, 's') },
      { label: 'Air', value: `${formatQuantity(need.ambient_C, 'C')}, ${need.cooling.replace('-', ', ')}` },
      {
        label: 'Feeds',
        value: `${need.feeds}; output ${need.outputEarthed ? 'joined to earth' : 'free of earth'}`,
      },
      { label: 'Insulation', value: `${need.insulation}, pollution degree ${need.pollutionDegree}` },
      { label: 'Altitude', value: `up to ${formatQuantity(need.altitude_m, 'm')}` },
      ...(need.note ? [{ label: 'Note', value: need.note }] : []),
      ...(supply.note ? [{ label: 'Supply note', value: supply.note }] : []),
    ],
  }
}

function readingsTable(evaluation: Evaluation): Block {
  const running = columns.map((column) => at(evaluation, column.id))
  return {
    kind: 'table',
    caption: 'Readings at the main conditions',
    columns: [{ title: 'Reading' }, ...columns.map(({ title }) => ({ title, number: true }))],
    rows: shown.map((key) => {
      const info = infoOf(key)
      return [
        words(info.label),
        ...running.map((c) =>
          figureCell(
            c === null
              ? 'does not run'
              : key === 'duty' || key === 'efficiency'
                ? `${(c.readings[key] * 100).toFixed(1)} %`
                : withUnit(c.readings[key], info.unit),
          ),
        ),
      ]
    }),
  }
}

function modeList(evaluation: Evaluation): Block {
  return {
    kind: 'list',
    ticked: false,
    items: columns.flatMap(({ id, title }) => {
      const c = at(evaluation, id)
      return c ? [`${title}: ${modeInWords(c)}.`] : []
    }),
  }
}

function lossTable(evaluation: Evaluation): Block {
  const low = at(evaluation, 'minimum-100')
  const usual = at(evaluation, 'nominal-100')
  return {
    kind: 'table',
    caption: 'Losses at full load',
    columns: [
      { title: 'Where' },
      { title: 'Lowest input', number: true },
      { title: 'Usual input', number: true },
    ],
    rows: losses
      .filter((key) => (low?.readings[key] ?? 0) > 0 || (usual?.readings[key] ?? 0) > 0)
      .map((key) => [
        words(infoOf(key).label),
        ...[low, usual].map((c) => figureCell(c ? formatQuantity(c.readings[key], 'W', 2) : 'does not run')),
      ]),
  }
}

const percent = (fraction: number) => `${Math.round(fraction * 100)} %`

function limitTable(limits: readonly Limit[]): Block {
  return {
    kind: 'table',
    caption: 'Limits, the weakest first: what gives first stands on top',
    columns: [
      { title: 'Ref.' },
      { title: 'Limit' },
      { title: 'Reading', number: true },
      { title: 'Against', number: true },
      { title: 'Margin', number: true },
      { title: 'Worst at' },
    ],
    rows: limits.map((limit) => [
      words(reference[limit.spot]),
      limit.holds ? words(limit.title) : strong(`OVER: ${limit.title}`),
      figureCell(limit.id === 'supply.runs' ? 'does not run' : withUnit(limit.reading, limit.unit)),
      figureCell(
        limit.id === 'supply.runs'
          ? ''
          : `${limit.sense === 'at-most' ? '≤' : '≥'} ${withUnit(limit.rating, limit.unit)}`,
      ),
      figureCell(roomInWords(limit, percent)),
      words(limit.condition ? (conditionById.get(limit.condition)?.label ?? '') : 'everywhere'),
    ]),
  }
}

/** Need, readings at the main conditions, losses and limits: what the numbers say. */
export const report = (evaluation: Evaluation, limits: readonly Limit[]): Paper => {
  const first = limits[0]!
  return {
    id: 'report',
    title: 'Report',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      {
        kind: 'paragraph',
        text: first.holds
          ? `By calculation every limit holds. The weakest is ${first.title.toLowerCase()} (${reference[first.spot]}), ${first.discrete ? roomInWords(first, percent) : `with ${percent(first.margin)} left`}. Calculation is not proof: the bench decides.`
          : `By calculation ${limits.filter((limit) => !limit.holds).length} limits do not hold. The first to give is ${first.title.toLowerCase()} (${reference[first.spot]}): ${first.why}`,
      },
      { kind: 'heading', text: 'Need' },
      needFacts(evaluation),
      readingsTable(evaluation),
      modeList(evaluation),
      railTable(evaluation),
      lossTable(evaluation),
      limitTable(limits),
    ],
  }
}
