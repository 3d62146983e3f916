import { at } from '../../supply/evaluation.ts'
import type { Readings } from '../unit/readings.ts'
import { type CheckSpec, number, outputSpread, type PlanFacts, state } from './spec.ts'
import { cold, live, output } from './ways.ts'

/** What the short and the sign-off read on a healthy unit. */
export function lastReadings({ evaluation }: Pick<PlanFacts, 'evaluation'>): Readings {
  const short = at(evaluation, 'short')
  const full = at(evaluation, 'nominal-100')
  return {
    'short.ticks': 'fast',
    'short.input': short ? short.readings.input_W : null,
    'short.recovers': evaluation.fixed.outputSet_V,
    'sign-off.efficiency': full ? full.readings.efficiency : null,
    'sign-off.insulation': 2e9,
    'sign-off.discharge': 0,
    'sign-off.label': 'done',
  }
}

/** Short of the output, and what closes the record. */
export const lastChecks: readonly CheckSpec[] = [
  state(
    'short.ticks',
    'With the output shorted',
    {
      fast: 'ticks, about one or more a second',
      silent: 'silent',
      steady: 'runs on with a steady current',
      slow: 'stops for long',
    },
    {
      spot: 'output',
      side: 'secondary',
      live: true,
      ways: output.eye,
      risk: 'What a shorted lead does stays unproven.',
      stop: () => ({ below: null, above: null, text: 'No ticking, a glow, smoke or a smell: off.' }),
    },
  ),
  number('short.input', 'Mean input power with the output shorted', 'W', 0.4, 0.2, {
    spot: 'input',
    side: 'mains',
    live: true,
    ways: live.watts,
    risk: 'Heat in a lasting short stays unproven.',
    low: 'No matter.',
    high: 'It does not pause between tries: off.',
    oneSided: 'at most',
    why: 'share of tries in the time, greatest current limit',
    stop: ({ evaluation }) => ({
      below: null,
      above: 0.5 * evaluation.design.need.output_V * evaluation.design.need.output_A + 3,
      text: 'Half of the rated power or more: off.',
    }),
  }),
  number('short.recovers', 'Output voltage after the short is taken away', 'V', outputSpread, 0.05, {
    spot: 'output',
    side: 'secondary',
    live: true,
    at: 'output plus',
    reference: 'output minus',
    ways: output.volts,
    risk: 'Recovery stays unproven.',
    low: 'It latched, or something broke: start again from the lamp.',
    high: 'Feedback was hurt: off.',
    why: 'as before the short',
    stop: ({ evaluation }) => ({
      below: null,
      above: 1.1 * evaluation.design.need.output_V,
      text: '10 % above: off.',
    }),
  }),
  number('sign-off.efficiency', 'Output over input power, full load', 'fraction', 0.03, 0.01, {
    spot: 'output',
    side: 'mains',
    live: true,
    ways: output.loadedWatts,
    risk: 'The loss budget stays unproven.',
    low: 'Something burns the difference: see temperatures.',
    high: 'Check wattmeter and load.',
    why: 'losses ±25 %',
  }),
  number('sign-off.discharge', 'Voltage left on the bulk capacitor', 'V', 0.5, 5, {
    spot: 'bulkCapacitor',
    at: 'C2 plus',
    reference: 'C2 minus',
    ways: [{ ...cold.ohms[0], how: 'DC volts, 1000 V range, after discharge.' }],
    risk: 'A charged capacitor gives a shock to the next hand.',
    high: 'Discharge again.',
    oneSided: 'at most',
    stop: () => ({ below: null, above: 5, text: 'Above 5 V: nothing is touched.' }),
  }),
  number('sign-off.insulation', 'Primary to secondary, warm', 'ohm', 0.8, 1e6, {
    spot: 'transformer',
    side: 'across the barrier',
    at: 'plug pins joined',
    reference: 'output terminals joined',
    ways: cold.insulation,
    risk: 'Heat damage to the barrier is not found. Do not connect anything that a person touches.',
    low: 'The barrier was hurt: scrap the transformer.',
    high: 'No matter.',
    oneSided: 'at least',
    stop: () => ({ below: 100e6, above: null, text: 'Below 100 MΩ: it is not used.' }),
  }),
  state(
    'sign-off.label',
    'Label, fuse rating, record and cover',
    { done: 'done', open: 'something is open' },
    {
      spot: 'input',
      ways: [
        {
          ...cold.hand[0],
          how: 'Label says what was read, and that it is not certified; cover closed before use.',
        },
      ],
      risk: 'The next person does not know.',
    },
  ),
]
