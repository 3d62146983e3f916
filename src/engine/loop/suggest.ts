import { seriesBetween } from '../quantity/e-series.ts'
import { requireBetween } from '../quantity/require.ts'
import { cornerMargins, type LoopCorner, type WorstMargins } from './corners.ts'
import { crossingPhase_deg } from './crossing-phase.ts'
import { type CrossoverLimit, crossoverLimits } from './crossover-limits.ts'
import type { FeedbackPath } from './feedback-path.ts'
import { loopGain } from './loop-gain.ts'
import { margins } from './margins.ts'
import { pathAt } from './path-at.ts'
import { evaluate } from './polynomial.ts'

export interface NetworkQuestion {
  /** Corners to satisfy; the first is the one at which crossover and margin are asked for. */
  readonly corners: readonly LoopCorner[]
  readonly crossover_Hz: number
  readonly phaseMargin_deg: number
  /** Bracket of the LED resistor from the bias currents. */
  readonly ledResistorMinimum_ohm: number
  readonly ledResistorMaximum_ohm: number
  /** Values that are settled already and stay as they are. */
  readonly fixed?: Partial<Network>
}

export interface Network {
  readonly ledResistor_ohm: number
  readonly compensationResistor_ohm: number
  readonly compensationCapacitor_F: number
  readonly highFrequencyCapacitor_F: number
}

export interface NetworkAnswer {
  readonly ok: true
  readonly network: Network
  /** Crossover that was aimed at: the one asked for, or the lowest limit if that is less. */
  readonly aimed_Hz: number
  readonly limits: readonly CrossoverLimit[]
  readonly margins: WorstMargins
  readonly warnings: readonly string[]
}

export interface NetworkFailure {
  readonly ok: false
  readonly code: 'no-network'
  readonly message: string
}

/**
 * Suggests LED resistor, compensation resistor and capacitors from preferred values (E24 resistors, E6 capacitors) for
 * a crossover and a phase margin.
 *
 * For each LED resistor and each place of zero and high-frequency pole round the crossover, the compensation resistor
 * that brings the loop gain to 1 there is found by halving the series; the closest few are then judged at every corner.
 * Where no network keeps 40 degrees (or what was asked for, if less) at every corner, the aim is lowered in steps.
 */
export function suggestNetwork(question: NetworkQuestion): NetworkAnswer | NetworkFailure {
  requireBetween('corners (count)', question.corners.length, 1, 10000)
  requireBetween('crossover_Hz', question.crossover_Hz, 1, 1e6, 'Hz')
  requireBetween('phaseMargin_deg', question.phaseMargin_deg, 5, 120, 'degrees')
  const limits = crossoverLimits(question.corners)
  const leds = ledChoices(question)
  if (leds.length === 0)
    return {
      ok: false,
      code: 'no-network',
      message: `no preferred LED resistor lies between ${question.ledResistorMinimum_ohm} and ${question.ledResistorMaximum_ohm} ohm`,
    }
  const top_Hz = Math.min(question.crossover_Hz, limits[0]?.limit_Hz ?? question.crossover_Hz)
  let best: Judged | null = null
  for (const factor of aimFactors) {
    const worthwhile_deg: number = best === null ? Number.NEGATIVE_INFINITY : leastPhase(best) + gain_deg
    const candidate = bestAt(question, leds, top_Hz * factor, worthwhile_deg)
    if (candidate === null) continue
    if (best === null || leastPhase(candidate) > worthwhile_deg) best = candidate
    if (leastPhase(best) >= Math.min(40, question.phaseMargin_deg)) break
  }
  if (best === null)
    return { ok: false, code: 'no-network', message: `no network brings the loop gain to 1 at ${top_Hz} Hz` }
  return {
    ok: true,
    network: best.network,
    aimed_Hz: best.aimed_Hz,
    limits,
    margins: best.margins,
    warnings: warn(question, best, top_Hz, limits),
  }
}

/** A lower aim is taken for so much more phase. */
const gain_deg = 3

const aimFactors = [1, 0.7, 0.5, 0.33, 0.22, 0.15, 0.1, 0.05] as const

interface Judged {
  readonly cost: number
  readonly aimed_Hz: number
  readonly network: Network
  readonly margins: WorstMargins
}

const leastPhase = (j: Judged): number => j.margins.leastPhase?.phaseMargin_deg ?? -180

/**
 * The best network for one crossover: cheap cost at the first corner alone, then all corners for the closest few. Null
 * where none of these can keep more than `worthwhile_deg` of phase.
 */
function bestAt(
  question: NetworkQuestion,
  leds: readonly number[],
  aimed_Hz: number,
  worthwhile_deg: number,
): Judged | null {
  const gainAt = new FirstCorner(question.corners[0]!, aimed_Hz)
  const found: { cost: number; network: Network }[] = []
  for (const led of leds)
    for (const zero of zeroRatios)
      for (const pole of poleRatios) {
        const network = closest(gainAt, led, zero, pole, aimed_Hz, question.fixed ?? {})
        const gain_dB = gainAt.read(network)
        const margin = gainAt.margin_deg
        const short = Math.max(0, question.phaseMargin_deg - margin)
        const cost = Math.abs(gain_dB) * 4 + short + 0.1 * Math.abs(margin - question.phaseMargin_deg)
        found.push({ cost, network })
      }
  found.sort((a, b) => a.cost - b.cost)
  // From the least that is amiss with any on, so that most need not be judged in full.
  const few = found
    .slice(0, 16)
    .map(({ network }) => ({ network, ...glance(question, network, aimed_Hz) }))
    .sort((a, b) => a.least - b.least)
  if (few.every(({ most_deg }) => most_deg <= worthwhile_deg)) return null
  let best: { cost: number; network: Network } | null = null
  for (const { network, least } of few) {
    if (best !== null && least >= best.cost) break
    const cost = judge(question, network, aimed_Hz, best?.cost ?? Number.POSITIVE_INFINITY)
    if (best === null || cost < best.cost) best = { cost, network }
  }
  if (best === null) return null
  const { network } = best
  const margins = cornerMargins(question.corners.map((c) => ({ ...c, path: withNetwork(c.path, network) })))
  return { ...best, aimed_Hz, margins }
}

/** Loop gain of one corner at one frequency for any network: the power stage is evaluated once. */
class FirstCorner {
  /** Phase margin of the network read last, -180 to 180 degrees above -180. */
  margin_deg = 0
  /** The network is written into it anew at each reading. */
  private readonly path: Omit<FeedbackPath, keyof Network> & { -readonly [K in keyof Network]: number }
  private readonly frequency_Hz: number
  private readonly sensed = new Float64Array(2)
  private readonly fed = new Float64Array(2)
  private readonly lanes = new Float64Array(4)

  constructor(corner: LoopCorner, frequency_Hz: number) {
    const { stage, path } = corner
    this.path = { ...path }
    this.frequency_Hz = frequency_Hz
    evaluate(
      { num: path.senseTap === 'first' ? stage.toFirst : stage.toLoad, den: stage.den },
      frequency_Hz,
      this.sensed,
    )
    evaluate(
      { num: path.ledTap === 'first' ? stage.toFirst : stage.toLoad, den: stage.den },
      frequency_Hz,
      this.fed,
    )
  }

  /** Gain in dB of the loop with a network; sets `margin_deg`. */
  read(network: Network): number {
    const { sensed, fed, lanes, path } = this
    path.ledResistor_ohm = network.ledResistor_ohm
    path.compensationResistor_ohm = network.compensationResistor_ohm
    path.compensationCapacitor_F = network.compensationCapacitor_F
    path.highFrequencyCapacitor_F = network.highFrequencyCapacitor_F
    pathAt(path, this.frequency_Hz, lanes)
    const re = lanes[0]! * sensed[0]! - lanes[1]! * sensed[1]! + lanes[2]! * fed[0]! - lanes[3]! * fed[1]!
    const im = lanes[0]! * sensed[1]! + lanes[1]! * sensed[0]! + lanes[2]! * fed[1]! + lanes[3]! * fed[0]!
    const phase = (Math.atan2(im, re) * 180) / Math.PI
    this.margin_deg = phase > 0 ? phase - 180 : phase + 180
    return 10 * Math.log10(re * re + im * im)
  }
}

/** Zero below and pole above the crossover, as ratios to it; the last pole ratio leaves the capacitor out. */
const zeroRatios = [1.5, 2.5, 4, 7, 12, 20] as const
const poleRatios = [1.5, 2.5, 5, 10, Number.POSITIVE_INFINITY] as const

export const withNetwork = (path: FeedbackPath, network: Network): FeedbackPath => ({ ...path, ...network })

function ledChoices(q: NetworkQuestion): number[] {
  if (q.fixed?.ledResistor_ohm !== undefined) return [q.fixed.ledResistor_ohm]
  const all = seriesBetween(Math.max(1, q.ledResistorMinimum_ohm), q.ledResistorMaximum_ohm, 'E12')
  const step = Math.max(1, Math.floor(all.length / 6))
  return all.filter((_, k) => (all.length - 1 - k) % step === 0)
}

function closest(
  corner: FirstCorner,
  led: number,
  zero: number,
  pole: number,
  at_Hz: number,
  fixed: Partial<Network>,
): Network {
  const build = (resistor: number): Network => ({
    ledResistor_ohm: led,
    compensationResistor_ohm: resistor,
    compensationCapacitor_F: capacitor(Math.min(mostCompensation_F, zero / (2 * Math.PI * resistor * at_Hz))),
    highFrequencyCapacitor_F: Number.isFinite(pole)
      ? capacitor(1 / (2 * Math.PI * resistor * at_Hz * pole))
      : 0,
    ...fixed,
  })
  let low = 0
  let high = resistorChoices.length - 1
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (corner.read(build(resistorChoices[middle]!)) < 0) low = middle
    else high = middle
  }
  const under = build(resistorChoices[low]!)
  const over = build(resistorChoices[high]!)
  return Math.abs(corner.read(under)) < Math.abs(corner.read(over)) ? under : over
}

/** A larger capacitor with the divider would take the output tenths of a second to settle, F. */
const mostCompensation_F = 1e-6

const resistorChoices = seriesBetween(100, 2e6, 'E24')
const capacitorChoices = seriesBetween(1e-12, 100e-6, 'E6')

/** Nearest E6 capacitor by ratio; six a decade from 1 pF. */
function capacitor(value: number): number {
  const index = Math.round(6 * Math.log10(value / 1e-12))
  let best = capacitorChoices[0]!
  for (let k = index - 1; k <= index + 1; k++) {
    const candidate = capacitorChoices[Math.min(capacitorChoices.length - 1, Math.max(0, k))]!
    if (Math.abs(Math.log(candidate / value)) < Math.abs(Math.log(best / value))) best = candidate
  }
  return best
}

/** Points a decade where networks are compared; the one that is chosen is looked at more closely. */
const coarse = 16

/** What is amiss with a network over all corners; given up once it is more than `most`. */
function judge(q: NetworkQuestion, network: Network, aimed_Hz: number, most: number): number {
  let cost = 0
  for (let index = 0; index < q.corners.length && cost < most; index++) {
    const { stage, path } = q.corners[index]!
    const top_Hz = 0.5 / stage.equations.samplePeriod_s
    const m = margins(loopGain(stage, withNetwork(path, network)), 1, top_Hz, coarse)
    if (!m.ok) {
      cost += 1000
      continue
    }
    cost += amiss(q, m.phaseMargin_deg, index)
    cost += 3 * Math.max(0, 8 - m.gainMargin_dB)
    if (index === 0) cost += 60 * Math.abs(Math.log(m.crossover_Hz / aimed_Hz))
  }
  return cost
}

/**
 * At the least what is amiss with a network, and the most phase that it can keep: by one crossing of each corner, found in
 * a tenth of the time of them all.
 */
function glance(q: NetworkQuestion, network: Network, aimed_Hz: number): { least: number; most_deg: number } {
  let least = 0
  let most_deg = 180
  q.corners.forEach((corner, index) => {
    const phase_deg = crossingPhase_deg(corner.stage, withNetwork(corner.path, network), aimed_Hz)
    if (phase_deg === null) return
    least += amiss(q, phase_deg, index)
    most_deg = Math.min(most_deg, phase_deg)
  })
  return { least, most_deg }
}

/** What a phase margin leaves to be wished at a corner; the first one counts most. */
const amiss = (q: NetworkQuestion, phase_deg: number, index: number): number =>
  (index === 0 ? 4 : 1) * Math.max(0, q.phaseMargin_deg - phase_deg) +
  (phase_deg < 30 ? 200 + 5 * (30 - phase_deg) : 0)

function warn(q: NetworkQuestion, best: Judged, top_Hz: number, limits: readonly CrossoverLimit[]): string[] {
  const warnings: string[] = []
  const worst = best.margins
  if (top_Hz < q.crossover_Hz && limits[0])
    warnings.push(
      `crossover lowered from ${Math.round(q.crossover_Hz)} to ${Math.round(top_Hz)} Hz by the ${limits[0].reason}`,
    )
  if (best.aimed_Hz < top_Hz)
    warnings.push(
      `crossover lowered from ${Math.round(top_Hz)} to ${Math.round(best.aimed_Hz)} Hz to keep phase margin at every corner`,
    )
  if (worst.leastPhase && worst.leastPhase.phaseMargin_deg < 30)
    warnings.push(
      `phase margin is only ${worst.leastPhase.phaseMargin_deg.toFixed(0)} degrees at ${worst.leastPhase.name}`,
    )
  const first = worst.corners[0]?.margins
  if (first?.ok && Math.abs(Math.log(first.crossover_Hz / best.aimed_Hz)) > 0.3)
    warnings.push(
      `crossover comes out at ${Math.round(first.crossover_Hz)} Hz: the LED's own lane sets a floor on the gain; a larger LED resistor or a fixed LED rail lowers it`,
    )
  return warnings
}
