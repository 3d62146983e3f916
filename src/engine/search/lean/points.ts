import type { Candidate } from '../space/candidate.ts'
import { snubberOf } from '../space/frames.ts'
import type { Space } from '../space/space.ts'
import { breaks, type FluxAt, type LeanAnswer, type LeanMeasures, stopped, type Zeal } from './answer.ts'
import type { LeanCoil } from './bench.ts'
import { coilQuality, dressCoil, partsWith, ringingOf } from './dress.ts'
import {
  type Around,
  chargeBreaks,
  clampBreaks,
  heatBreaks,
  hotCoreBreaks,
  overloadBreaks,
  powerBreaks,
  ringBreaks,
  shortBreaks,
  surgeBreaks,
} from './point-limits.ts'
import { coldStart, type Start, settleSurely } from './settle.ts'
import {
  bulk,
  conditionAt,
  loopOf_H,
  losses,
  overload,
  strongestOf,
  typicalOf,
  weakestOf,
} from './solved-points.ts'
import type { Stand } from './stand.ts'
import { slack, type Tally } from './tally.ts'

/** ESR of an electrolytic at twice mains over that at 100 kHz; as the readings take it. */
const lowFrequencyResistance = 1.5

/** One candidate on its way through the points that decide. */
interface Trial {
  readonly space: Space
  readonly stand: Stand
  readonly c: Candidate
  readonly coil: LeanCoil
  readonly around: Around
  readonly fluxAt: FluxAt
  readonly t: Tally
  readonly all: boolean
  /** Where points are begun from: the lowest input once it is known. */
  start: Start
  /** Of the lowest input; not a number before it is known. */
  loss_W: number
}

type Verdict = 'holds' | 'breaks' | 'stops'

const verdict = (broken: boolean): Verdict => (broken ? 'breaks' : 'holds')

/** The points that decide, each with the limits that break there. */
const points: readonly ((trial: Trial) => Verdict)[] = [
  lowestInput,
  weakestParts,
  highestInput,
  strongestParts,
  (trial) => overloaded(trial, 0),
  (trial) => overloaded(trial, 1),
]
const atHighest = 2
export const firstOverload = 4
/** Stands for the highest input where it is the ring that breaks there. */
export const atRing = points.length

/**
 * Judges a candidate on its decisive limits at the points that decide: the lowest input with typical parts, with the
 * weakest and with those of most leakage, the highest input, and overload at both. Where one is to be enough, the point
 * that the candidate before broke at comes first. A short has been looked at by then.
 */
export function leanly(
  space: Space,
  stand: Stand,
  c: Candidate,
  coil: LeanCoil,
  start: Start | null,
  effort: number,
  fluxAt: FluxAt,
  t: Tally,
  zeal: Zeal,
): LeanAnswer {
  const { all } = zeal
  dressCoil(stand, c.frame, coil)
  const { plant: p } = stand
  const around: Around = {
    need: space.need,
    parts: partsWith(stand, c),
    plant: p,
    bulk,
    primaryArea_m2: coil.primary.copperArea_m2,
    secondaryArea_m2: coil.secondary.copperArea_m2,
  }
  const trial: Trial = {
    ...{ space, stand, c, coil, around, fluxAt, t, all },
    start: start ?? coldStart(p),
    loss_W: Number.NaN,
  }
  const measures = (): LeanMeasures => ({
    margin: Math.min(t.margin + slack, stand.fixed.margin),
    loss_W: trial.loss_W,
    effort,
  })
  if (all) shortBreaks(around, stand.rails.idleCrest_V, fluxAt, t, all)
  const first = all ? 0 : stand.brokeAt === atRing ? atHighest : stand.brokeAt
  for (let i = -1; i < points.length; i++) {
    if (i === first) continue
    const at = i < 0 ? first : i
    const is = points[at]!(trial)
    if (is === 'stops') {
      stand.brokeAt = at
      return stopped(t)
    }
    if (is === 'breaks' && !all) {
      stand.brokeAt = at === atHighest && t.id === 'rectifier.reverse-margin' ? atRing : at
      return breaks
    }
    if (!all && trial.loss_W > 0 && zeal.outdone(measures())) return { is: 'outdone' }
  }
  return { is: 'holds', ...measures() }
}

function lowestInput(trial: Trial): Verdict {
  const { stand, around, t, all } = trial
  const { plant: p, tables } = stand
  const low = settleSurely(
    p,
    { table: tables.low, ...typicalOf(p) },
    conditionAt.low,
    trial.start,
    bulk,
    losses.low,
  )
  if (low === 'stops') return 'stops'
  trial.start = low
  if (clampBreaks(around, low, t, all) || heatBreaks(around, low, t, all)) return 'breaks'
  const line_W =
    (bulk.ripple_Arms * bulk.ripple_Arms * p.bulkResistance_ohm * lowFrequencyResistance) / p.bulkCount
  trial.loss_W = low.losses.total_W + p.standing_W + bulk.series_W + bulk.bleed_W + line_W
  return 'holds'
}

function weakestParts({ stand, around, t, all, start }: Trial): Verdict {
  const { plant: p, tables } = stand
  const lean = { table: tables.lowWeak, ...weakestOf(p) }
  const weak = settleSurely(p, lean, conditionAt.weak, start, bulk, losses.weak)
  if (weak === 'stops') return 'stops'
  return verdict(
    powerBreaks(around, weak, t, all, p.inductance_H.minimum) ||
      clampBreaks(around, weak, t, all) ||
      heatBreaks(around, weak, t, all) ||
      chargeBreaks(around, weak, t, all),
  )
}

function highestInput({ space, stand, c, coil, around, t, all, start }: Trial): Verdict {
  const { plant: p, tables } = stand
  const lean = { table: tables.high, ...typicalOf(p) }
  const high = settleSurely(p, lean, conditionAt.high, start, bulk, losses.high)
  if (high === 'stops') return 'stops'
  if (clampBreaks(around, high, t, all) || heatBreaks(around, high, t, all)) return 'breaks'
  if (surgeBreaks(around, high, stand.surged_V, t) && !all) return 'breaks'
  ring({ space, stand, c, coil })
  return verdict(ringBreaks(around, high, stand.rails.idleCrest_V, t, all))
}

/** Puts what rings on the rectifier into a dressed plant; overload reads it too. */
function ring({ space, stand, c, coil }: Pick<Trial, 'space' | 'stand' | 'c' | 'coil'>): void {
  const { plant: p } = stand
  if (p.ringing === stand.rings) return
  p.secondaryLoop_H = loopOf_H(p)
  p.ringing = ringingOf(p, coilQuality(p, coil), snubberOf(space, c.frame))
  stand.rings = p.ringing
}

function strongestParts({ stand, around, t, all, start, fluxAt }: Trial): Verdict {
  const { plant: p, tables } = stand
  const lean = { table: tables.low, ...strongestOf(p) }
  const flux = settleSurely(p, lean, conditionAt.flux, start, bulk, losses.flux)
  if (flux === 'stops') return 'stops'
  if (clampBreaks(around, flux, t, all) || heatBreaks(around, flux, t, all)) return 'breaks'
  return verdict(hotCoreBreaks(around, flux.transformer_C, bulk.maximum_V, fluxAt, t) && !all)
}

function overloaded(trial: Trial, at: 0 | 1): Verdict {
  const { stand, around, t, all, fluxAt } = trial
  const over = overload(stand, at)
  if (over === 'stops') return 'stops'
  ring(trial)
  return verdict(overloadBreaks(around, over, fluxAt, t, true) && !all)
}
