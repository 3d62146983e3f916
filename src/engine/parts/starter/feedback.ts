import type { Led, Optocoupler, Reference } from '../part.ts'
import { micro, milli, mm } from './units.ts'

const source = 'typical of the trade, no source'

/** Columns: tag, transfer ratio minimum, typical, maximum, test current mA. */
const ranks: readonly (readonly [
  tag: string,
  minimum: number,
  typical: number,
  maximum: number,
  test_mA: number,
])[] = [
  ['40-80', 0.4, 0.6, 0.8, 10],
  ['63-125', 0.63, 0.9, 1.25, 10],
  ['100-200', 1, 1.45, 2, 10],
  ['160-320', 1.6, 2.3, 3.2, 10],
  ['50-600', 0.5, 1.5, 6, 5],
  ['80-160', 0.8, 1.2, 1.6, 5],
  ['130-260', 1.3, 1.9, 2.6, 5],
  ['200-400', 2, 2.9, 4, 5],
]

const optocouplers: readonly Optocoupler[] = ranks.map(([tag, minimum, typical, maximum, test_mA]) => ({
  id: `optocoupler-${tag}`,
  kind: 'optocoupler',
  name: `Optocoupler, transfer ratio ${tag.replace('-', ' to ')} % at ${test_mA} mA`,
  source,
  transferRatio: { minimum, typical, maximum },
  testCurrent_A: milli(test_mA),
  ageing: 0.7,
  ledDrop_V: 1.2,
  ledMaximum_A: milli(50),
  collector_V: 70,
  pole_Hz: 15e3,
  poleLoad_ohm: 1000,
  isolation_Vrms: 5000,
  creepage_m: mm(8),
}))

const references: readonly Reference[] = [
  ...(
    [
      ['2', 2.45],
      ['1', 2.475],
      ['0.5', 2.4875],
    ] as const
  ).map(
    ([percent, minimum]): Reference => ({
      id: `reference-2.5v-${percent}pc`,
      kind: 'reference',
      name: `Shunt reference 2.5 V, ${percent} %, 36 V`,
      source,
      voltage_V: { minimum, typical: 2.5, maximum: 5 - minimum },
      minimumCathode_A: milli(1),
      maximumCathode_A: milli(100),
      maximumCathode_V: 36,
      minimumCathode_V: 2.5,
      inputCurrent_A: micro(2),
      drift_per_K: 50e-6,
      gain: 560,
      gainBandwidth_Hz: 1e6,
    }),
  ),
  ...(
    [
      ['1', 1.2276, 6],
      ['1', 1.2276, 18],
    ] as const
  ).map(
    ([percent, minimum, limit_V]): Reference => ({
      id: `reference-1.24v-${percent}pc-${limit_V}v`,
      kind: 'reference',
      name: `Shunt reference 1.24 V, ${percent} %, ${limit_V} V`,
      source,
      voltage_V: { minimum, typical: 1.24, maximum: Number((2.48 - minimum).toFixed(4)) },
      minimumCathode_A: micro(100),
      maximumCathode_A: milli(20),
      maximumCathode_V: limit_V,
      minimumCathode_V: 1.25,
      inputCurrent_A: micro(0.5),
      drift_per_K: 50e-6,
      gain: 600,
      gainBandwidth_Hz: 700e3,
    }),
  ),
]

/** An ordinary reference under a transistor that takes the voltage beyond 36 V, counted as one part. */
const cascoded: Reference = {
  id: 'reference-2.5v-1pc-80v',
  kind: 'reference',
  name: 'Shunt reference 2.5 V, 1 %, in cascode with an 80 V transistor',
  note: 'Base of the transistor on a 10 V Zener diode from the output; its collector is the cathode.',
  source,
  voltage_V: { minimum: 2.475, typical: 2.5, maximum: 2.525 },
  minimumCathode_A: milli(1),
  maximumCathode_A: milli(50),
  maximumCathode_V: 80,
  minimumCathode_V: 10,
  inputCurrent_A: micro(2),
  drift_per_K: 50e-6,
  gain: 560,
  gainBandwidth_Hz: 1e6,
}

const leds: readonly Led[] = (
  [
    ['red', 1.9, 5],
    ['yellow', 2, 5],
    ['green', 2.1, 5],
    ['blue', 3, 2],
    ['white', 3, 2],
  ] as const
).map(([colour, drop_V, wanted_mA]) => ({
  id: `led-${colour}`,
  kind: 'led',
  name: `Indicator LED, ${colour}`,
  source,
  drop_V,
  wanted_A: milli(wanted_mA),
  maximum_A: milli(20),
}))

export const starterFeedback: readonly (Optocoupler | Reference | Led)[] = [
  ...optocouplers,
  ...references,
  cascoded,
  ...leds,
]
