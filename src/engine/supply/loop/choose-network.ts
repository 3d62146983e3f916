import {
  type FeedbackValues,
  loopGain,
  margins,
  type Network,
  type NetworkAnswer,
  type NetworkFailure,
  suggestNetwork,
} from '../../loop/index.ts'
import type { Design } from '../design.ts'
import type { ConditionReadings } from '../evaluation.ts'
import { startNetwork } from '../resolve/feedback.ts'
import { type Corner, cornersOf, type Feedback, loopRuns, typicalCorner } from './corners.ts'
import type { Lean } from './lean.ts'
import { loadsOf } from './stage-at.ts'

/** Crossover that is asked for where nothing else limits it, as a part of the switching frequency. */
export const askedShare = 1 / 50
export const askedMargin_deg = 60

/** Part of the greatest LED resistor that is used. */
const ledUse = 0.9

/** The corners that bound a network: strong and new against weak and aged, cold and hot. */
const bounds: readonly Lean[] = [
  { temperature: 'hot', aged: false, transferRatio: 'maximum' },
  { temperature: 'cold', aged: true, transferRatio: 'maximum' },
  { temperature: 'hot', aged: true, transferRatio: 'minimum' },
]
const boundingConditions = new Set(['minimum-10', 'minimum-100', 'maximum-10', 'maximum-100'])

/**
 * Suggests the values round the reference from preferred ones, over the corners that bound them. `fixed` values stay;
 * crossover and phase margin may be asked for.
 */
export function suggestFor(
  d: Design,
  conditions: readonly ConditionReadings[],
  fixed: Partial<Network>,
  ask: { readonly crossover_Hz?: number; readonly phaseMargin_deg?: number } = {},
  known: Feedback = plainStart(d),
): NetworkAnswer | NetworkFailure {
  const running = conditions.filter(loopRuns)
  const first = running.find((c) => c.condition.id === 'nominal-100') ?? running[0]
  const typical = first ? typicalCorner(d, known, first) : null
  if (!typical) return { ok: false, code: 'no-network', message: 'the supply does not run at any load' }
  const corners = [typical, ...boundingCorners(d, conditions, known)]
  return suggestNetwork({
    corners: corners.map((c: Corner) => ({ name: c.name, stage: c.small, path: c.path })),
    crossover_Hz: ask.crossover_Hz ?? askedShare * d.parts.switcher.frequency_Hz.typical,
    phaseMargin_deg: ask.phaseMargin_deg ?? askedMargin_deg,
    ledResistorMinimum_ohm: d.feedback.ledResistorMinimum_ohm,
    // Room for the trim range and for what the closed form leaves out.
    ledResistorMaximum_ohm: ledUse * d.feedback.ledResistorMaximum_ohm,
    fixed,
  })
}

/** The corners that bound a network, at the hardest kind of load. */
function boundingCorners(d: Design, conditions: readonly ConditionReadings[], known: Feedback): Corner[] {
  const hardest = loadsOf(d.need).at(-1)!.kind
  return cornersOf(
    d,
    known,
    conditions.filter((c) => boundingConditions.has(c.condition.id)),
    bounds,
  ).filter((c) => c.load.kind === hardest)
}

/**
 * Least phase margin that a network leaves at the corners that bound it, degrees; in a fraction of a millisecond, where
 * choosing a network takes many. It is no longer looked for once it is below `enough_deg`.
 */
export function boundedPhase_deg(
  d: Design,
  conditions: readonly ConditionReadings[],
  network: Partial<Network>,
  enough_deg = Number.NEGATIVE_INFINITY,
): number {
  let least_deg = 180
  for (const { small, path } of boundingCorners(d, conditions, { ...plainStart(d), ...network })) {
    const found = margins(loopGain(small, path), 1, 0.5 / small.equations.samplePeriod_s)
    if (found.ok) least_deg = Math.min(least_deg, found.phaseMargin_deg)
    if (least_deg < enough_deg) break
  }
  return least_deg
}

/** What the feedback of a design is without its network, so that reading it settles nothing. */
function plainStart(d: Design): Feedback {
  const f = d.feedback
  return {
    ...startNetwork,
    dividerTop_ohm: f.dividerTop_ohm,
    dividerBottom_ohm: f.dividerBottom_ohm,
    ledResistor_ohm: f.ledResistor_ohm,
    biasResistor_ohm: f.biasResistor_ohm,
    softFinishCapacitor_F: f.softFinishCapacitor_F,
    senseAfterChoke: f.senseAfterChoke,
    ledFeedAfterChoke: f.ledFeedAfterChoke,
  }
}

/** Compensation that the builder left open, settled at every corner; the plain start where no network does. */
export function chooseNetwork(
  d: Design,
  conditions: readonly ConditionReadings[],
): Pick<FeedbackValues, keyof typeof startNetwork> {
  const {
    compensationResistor_ohm: R,
    compensationCapacitor_F: C,
    highFrequencyCapacitor_F: Ch,
  } = d.supply.build.feedback
  const fixed = {
    ledResistor_ohm: d.feedback.ledResistor_ohm,
    ...(R !== null && { compensationResistor_ohm: R }),
    ...(C !== null && { compensationCapacitor_F: C }),
    ...(Ch !== null && { highFrequencyCapacitor_F: Ch }),
  }
  const answer = suggestFor(d, conditions, fixed)
  return answer.ok ? answer.network : { ...startNetwork, ...fixed }
}
