import type { Switcher } from '../../parts/part.ts'
import type { Design } from '../../supply/design.ts'
import { benchOf } from '../unit/at-load.ts'
import type { Readings } from '../unit/readings.ts'
import { type CheckSpec, number, outputSpread } from './spec.ts'
import type { SmallerForecast } from './types.ts'
import { output } from './ways.ts'

/** Whether a switcher is a smaller one of the family in use, on the same footprint. */
const isSmallerOf = (smaller: Switcher, used: Switcher): boolean =>
  smaller.family === used.family &&
  smaller.package === used.package &&
  smaller.pins === used.pins &&
  smaller.currentLimit_A.typical < used.currentLimit_A.typical

/** What a smaller switcher of the family delivers with this very transformer. */
export function smallerForecast(d: Design, smaller: Switcher): SmallerForecast | null {
  if (!isSmallerOf(smaller, d.parts.switcher)) return null
  const bench = benchOf({ ...d, parts: { ...d.parts, switcher: smaller } })
  const full_W = d.need.output_V * d.need.output_A
  let full = bench.at('nominal', 1)
  let load = 1
  while (full === null && load > 0.05) {
    load *= 0.7
    full = bench.at('nominal', load)
  }
  if (full === null) return null
  const output_W = Math.min(full.readings.powerCeiling_W, full_W)
  const folds = Math.min(1, full.readings.powerCeiling_W / full_W)
  const percent = Math.round(100 * folds)
  return {
    name: smaller.name,
    output_W,
    folds,
    peakFlux_T: full.readings.fluxLimit_T,
    text:
      folds >= 1
        ? 'It carries full load at the nominal input: everything up to there can be proved with it.'
        : `With this transformer it carries about ${output_W.toPrecision(2)} W and folds at about ${percent} % load: stop before that. At its limit the core sees ${Math.round(full.readings.fluxLimit_T * 1000)} mT.`,
  }
}

/** Healthy readings with the smaller switcher in its place. */
export function smallerReadings(d: Design, f: SmallerForecast, set_V: number): Readings {
  return {
    'smaller-chip.output': set_V,
    'smaller-chip.ceiling': f.output_W / d.need.output_V,
  }
}

/** Checks with the smaller switcher fitted, through the lamp. */
export const smallerChecks: readonly CheckSpec[] = [
  number(
    'smaller-chip.output',
    'Output voltage with the smaller switcher, no load',
    'V',
    outputSpread,
    0.05,
    {
      spot: 'switcher',
      side: 'secondary',
      live: true,
      at: 'output plus',
      reference: 'output minus',
      ways: output.volts,
      risk: 'The dearer chip meets a wiring fault first.',
      low: 'Not started, or hiccup.',
      high: 'Feedback: off at once.',
      why: 'reference, 1 % divider',
      stop: ({ evaluation }) => ({
        below: null,
        above: 1.1 * evaluation.design.need.output_V,
        text: '10 % above: off.',
      }),
    },
  ),
  number('smaller-chip.ceiling', 'Output current at which it folds', 'A', 0.1, 0.02, {
    spot: 'switcher',
    side: 'secondary',
    live: true,
    at: 'output plus',
    reference: 'output minus',
    ways: output.ceiling,
    risk: 'Where it folds is left open.',
    low: 'Inductance low, leakage high, or the lamp takes over first.',
    high: 'No matter.',
    why: 'its current limit, the inductance',
    stop: () => ({ below: null, above: null, text: 'Ticking: take the load off.' }),
  }),
]
