import { formatQuantity, formatRange } from '../quantity/index.ts'
import { at, type Evaluation, type Running } from '../supply/evaluation.ts'
import { rectifierCase_C, switcherCase_C } from '../supply/heat-stops.ts'
import { trimOf } from '../supply/loop/index.ts'
import { type Block, blank, type Cell, figureCell, type Paper, words } from './document.ts'
import { foot, subtitle } from './heading.ts'

const inputs = ['minimum', 'nominal', 'maximum'] as const
const loads = [0, 10, 50, 100] as const

/** How far losses may lie off, as a part of them: common practice, no source. */
const lossBand = 0.25
/** Ripple and temperature rise likewise. */
const rippleBand = 0.5
const riseBand = 0.25

const around = (value: number, off: number, unit: 'V' | 'W'): string =>
  formatRange(Math.max(0, value - off), value + off, unit)
const percent = (low: number, high: number): string => `${Math.round(100 * low)}–${Math.round(100 * high)} %`

/** Millivolts to two digits, at least one, as less is lost in the noise of a bench: the line to write on is in millivolts. */
const millivolts = (value_V: number): string => {
  const value_mV = Math.max(1, 1e3 * value_V)
  const text = value_mV >= 10 ? value_mV.toFixed(0) : value_mV.toPrecision(2)
  return `${text}\u202fmV`
}

/** Output over input power with losses a quarter less or more. */
function efficiencyWords({ readings: r }: Running): string {
  const out_W = r.input_W - r.loss_W
  const of = (factor: number) => out_W / (out_W + factor * r.loss_W)
  return percent(of(1 + lossBand), of(1 - lossBand))
}

/** Volts at the plug that a row is taken at. */
function lineVolts(evaluation: Evaluation, input: (typeof inputs)[number]): string {
  const { source } = evaluation.design.need
  const key = { minimum: 0, nominal: 1, maximum: 2 }[input]
  const volts =
    source.kind === 'mains'
      ? [source.minimum_Vrms, source.nominal_Vrms, source.maximum_Vrms]
      : [source.minimum_V, source.nominal_V, source.maximum_V]
  return formatQuantity(volts[key]!, 'V')
}

function regulation(evaluation: Evaluation): Block {
  const { worst } = trimOf(evaluation.design)
  const { output_A } = evaluation.design.need
  const row = (input: (typeof inputs)[number], load: (typeof loads)[number]): readonly Cell[] => {
    const c = at(evaluation, `${input}-${load}`)
    const none = figureCell('does not run')
    return [
      words(lineVolts(evaluation, input)),
      words(load === 0 ? 'none' : formatQuantity((load / 100) * output_A, 'A', 3)),
      c ? figureCell(formatRange(worst.minimum, worst.maximum, 'V')) : none,
      blank('V'),
      c ? figureCell(around(c.readings.input_W, lossBand * c.readings.loss_W, 'W')) : none,
      blank('W'),
      c && load > 0 ? figureCell(efficiencyWords(c)) : words(''),
      load > 0 ? blank('%') : words(''),
      c ? figureCell(millivolts(c.readings.outputRipple_Vpp * (1 + rippleBand))) : none,
      blank('mV'),
    ]
  }
  return {
    kind: 'table',
    caption:
      'Regulation, power and ripple by line and load (none, 10, 50 and 100 %); efficiency: output volts × load over input power',
    columns: [
      { title: 'Input' },
      { title: 'Load' },
      { title: 'Output', number: true },
      { title: 'Is' },
      { title: 'Input power', number: true },
      { title: 'Is' },
      { title: 'Efficiency', number: true },
      { title: 'Is' },
      { title: 'Ripple p-p, most', number: true },
      { title: 'Is' },
    ],
    rows: inputs.flatMap((input) => loads.map((load) => row(input, load))),
  }
}

/** Temperatures at full load once they no longer move, at both ends of the input. */
function heat(evaluation: Evaluation): Block {
  const { design } = evaluation
  const spots: readonly [string, (c: Running) => number][] = [
    ['U1, case', (c) => switcherCase_C(design, c.readings)],
    ['D4, case', (c) => rectifierCase_C(design, c.readings)],
    ['T1, coil', (c) => c.readings.transformer_C],
    design.clamp.style === 'avalanche'
      ? ['D2, body', (c) => c.readings.clampAvalanche_C]
      : ['R2, body', (c) => c.readings.clampResistor_C],
    ['C7, top', (c) => c.readings.outputCapacitor_C],
  ]
  const ambient_C = design.need.ambient_C
  const ends = [at(evaluation, 'minimum-100'), at(evaluation, 'maximum-100')]
  return {
    kind: 'table',
    caption: `Temperatures at full load, settled, in air of ${formatQuantity(ambient_C, 'C')}: at most; in cooler air as much less`,
    columns: [
      { title: 'Where' },
      { title: 'Lowest input', number: true },
      { title: 'Is' },
      { title: 'Highest input', number: true },
      { title: 'Is' },
    ],
    rows: spots.map(([where, read]) => [
      words(where),
      ...ends.flatMap((c): Cell[] => {
        const rise_K = c ? read(c) - ambient_C : 0
        const most_C = ambient_C + rise_K * (1 + riseBand)
        return [figureCell(c ? `${Math.round(most_C)} °C` : 'does not run'), blank('°C')]
      }),
    ]),
  }
}

function bias(evaluation: Evaluation): Block {
  const ends = [
    ['no load', at(evaluation, 'nominal-0')],
    ['full load', at(evaluation, 'nominal-100')],
  ] as const
  return {
    kind: 'table',
    caption: 'Bias voltage, usual input',
    columns: [{ title: 'At' }, { title: 'Expect', number: true }, { title: 'Is' }],
    rows: ends.map(([load, c]) => [
      words(load),
      figureCell(c ? around(c.readings.bias_V, 0.12 * c.readings.bias_V, 'V') : 'does not run'),
      blank('V'),
    ]),
  }
}

/** How far the trimmer must reach; nothing where there is no trim. */
function trim(evaluation: Evaluation): Block[] {
  const { trimLow_V, trimHigh_V } = evaluation.design.need
  if (trimLow_V >= trimHigh_V) return []
  return [
    {
      kind: 'table',
      caption: 'Trimmer at its ends, half load',
      columns: [{ title: 'At' }, { title: 'Expect', number: true }, { title: 'Is' }],
      rows: [
        [words('lowest'), figureCell(`${formatQuantity(trimLow_V, 'V')} or less`), blank('V')],
        [words('highest'), figureCell(`${formatQuantity(trimHigh_V, 'V')} or more`), blank('V')],
      ],
    },
  ]
}

/** Result form: what the finished supply does by line and load, expected beside room to write. */
export const resultsPaper = (evaluation: Evaluation): Paper => ({
  id: 'results',
  title: 'Result form',
  subtitle: subtitle(evaluation),
  foot: foot(evaluation),
  blocks: [
    {
      kind: 'blanks',
      labels: [
        'Unit no.',
        'Date',
        'By',
        'Air, °C',
        'Wattmeter',
        'Voltmeter',
        'Ammeter',
        'Ripple with',
        'Thermometer',
      ],
    },
    {
      kind: 'caution',
      text: 'Only after the power-up plan is ticked to its end. The source for other lines than your own is an isolated one.',
    },
    regulation(evaluation),
    { kind: 'columns', columns: [[heat(evaluation)], [bias(evaluation), ...trim(evaluation)]] },
    {
      kind: 'blanks',
      labels: ['Step of load seen as', 'Sounds', 'Insulation, MΩ at V', 'Deviations and failures, kept'],
    },
  ],
})
