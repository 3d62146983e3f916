import type { Evaluation } from '../supply/evaluation.ts'
import { benchOf } from './unit/at-load.ts'
import { type ThermometerSpot, thermometerSpots, warmUp } from './unit/warm-up.ts'

/** What was read at one settled load, nominal input. */
export interface HeatReadings {
  readonly input_W: number
  readonly output_W: number
  readonly ambient_C: number
  readonly temperature_C: Partial<Readonly<Record<ThermometerSpot, number>>>
}

export interface HeatItem {
  readonly spot: ThermometerSpot | 'elsewhere'
  /** Rise over ambient, read and expected; 0 for what was not read. */
  readonly rise_K: number
  readonly expectedRise_K: number
  /** Power that this spot burns beyond plan, by its own thermal resistance. */
  readonly excess_W: number
  /** Off by so many standard deviations. */
  readonly off: number
  readonly text: string
}

export type HeatCheck =
  | {
      readonly ok: true
      readonly loss_W: number
      readonly expectedLoss_W: number
      /** Worst first. */
      readonly items: readonly HeatItem[]
      /** The item that is out of line; null where all lie in their bands. */
      readonly outOfLine: HeatItem | null
    }
  | { readonly ok: false; readonly message: string }

/** One standard deviation of a rise: models and thermometer. Common practice, no source. */
const riseSpread = 0.12
const thermometer_K = 2.5
/** One standard deviation of the loss: models and wattmeter. */
const lossSpread = 0.12
const wattmeter = 0.015
const enough = 2

const meaning: Readonly<Record<ThermometerSpot | 'elsewhere', readonly [hot: string, cool: string]>> = {
  switcher: [
    'switcher: poor contact, switching loss from winding capacitance, or a low bulk',
    'switcher runs cooler than planned',
  ],
  rectifier: ['rectifier: undersized, slow, or ringing in reverse', 'rectifier runs cooler than planned'],
  transformer: [
    'transformer: core flux or grade, wire near the gap, or too thin wire',
    'transformer runs cooler than planned',
  ],
  clamp: ['clamp: leakage above plan or clamp resistor too low', 'clamp runs cooler than planned'],
  elsewhere: [
    'the loss is larger than what these spots explain: bridge, bulk capacitor, output capacitor, choke, feedback',
    'less is lost than planned: check wattmeter and load',
  ],
}

/**
 * Finds what is out of line from input, output and temperatures: each rise against the rise that the model gives at the
 * same output power, turned into watts by the spot's own thermal resistance; what the loss has beyond that is elsewhere.
 */
export function heatCheck(evaluation: Evaluation, r: HeatReadings): HeatCheck {
  const { design } = evaluation
  const rated_W = design.need.output_V * design.need.output_A
  if (!(r.output_W >= 0 && r.output_W <= 1.3 * rated_W))
    return {
      ok: false,
      message: `output_W is ${r.output_W} W, outside 0 to ${(1.3 * rated_W).toPrecision(3)} W`,
    }
  if (!(r.input_W >= r.output_W))
    return { ok: false, message: `input_W is ${r.input_W} W, less than the output of ${r.output_W} W` }
  const bench = benchOf(design)
  const at = bench.at('nominal', r.output_W / rated_W)
  const warm = at ? warmUp(design, at) : null
  if (at === null || warm === null)
    return { ok: false, message: 'the supply does not run at this load by calculation' }
  const loss_W = r.input_W - r.output_W
  const expectedLoss_W = at.readings.loss_W
  const power: Record<ThermometerSpot, number> = {
    switcher: at.readings.switch_W,
    rectifier: at.readings.rectifier_W,
    transformer: at.readings.transformer_W,
    clamp: at.readings.clamp_W,
  }
  const items: HeatItem[] = []
  let explained_W = 0
  for (const spot of thermometerSpots) {
    const read_C = r.temperature_C[spot]
    if (read_C === undefined) continue
    const expectedRise_K = warm.steady_C[spot] - design.need.ambient_C
    const rise_K = read_C - r.ambient_C
    const excess_W = (power[spot] * (rise_K - expectedRise_K)) / Math.max(1, expectedRise_K)
    explained_W += excess_W
    const off = (rise_K - expectedRise_K) / Math.hypot(riseSpread * expectedRise_K, thermometer_K)
    items.push({ spot, rise_K, expectedRise_K, excess_W, off, text: meaning[spot][off > 0 ? 0 : 1] })
  }
  const elsewhere_W = loss_W - expectedLoss_W - explained_W
  const off = elsewhere_W / Math.hypot(lossSpread * expectedLoss_W, wattmeter * r.input_W, 0.1)
  items.push({
    spot: 'elsewhere',
    rise_K: 0,
    expectedRise_K: 0,
    excess_W: elsewhere_W,
    off,
    text: meaning.elsewhere[off > 0 ? 0 : 1],
  })
  items.sort((a, b) => Math.abs(b.off) - Math.abs(a.off))
  const worst = items[0]
  return {
    ok: true,
    loss_W,
    expectedLoss_W,
    items,
    outOfLine: worst && Math.abs(worst.off) > enough ? worst : null,
  }
}
