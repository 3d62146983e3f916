import { copperArea_m2 } from '../../magnetics/wire/index.ts'
import { conditionById } from '../../supply/condition.ts'
import { newLosses } from '../../supply/evaluate/losses.ts'
import type { LaidCoil } from '../../supply/resolve/coil.ts'
import type { Gap } from '../../supply/resolve/gap.ts'
import { leastRingQuality } from '../../supply/resolve/leakage-damping.ts'
import { can_H, starWithTrack } from '../../supply/resolve/secondary-path.ts'
import type { Candidate } from '../space/candidate.ts'
import { snubberOf } from '../space/frames.ts'
import type { Space } from '../space/space.ts'
import type { LeanCoil } from './bench.ts'
import { newBulkPoint } from './bulk-table.ts'
import { coilQuality, dressBare, dressCoil, dressLightly, partsWith, ringingOf } from './dress.ts'
import {
  type Around,
  chargeBreaks,
  clampBreaks,
  heatBreaks,
  hotCoreBreaks,
  idleRingBreaks,
  overloadBreaks,
  powerBreaks,
  ringBreaks,
  shortBreaks,
  surgeBreaks,
} from './point-limits.ts'
import type { QuickCoil } from './quick-coil.ts'
import { roughlyOverloaded } from './rough-overload.ts'
import { coldStart, type Settled, type Start, settle, settleSurely, warmed } from './settle.ts'
import type { Stand } from './stand.ts'
import { newTally, slack, type Tally } from './tally.ts'

/** What the lean evaluation says of a candidate. */
export type LeanAnswer =
  | { readonly is: 'breaks' }
  | { readonly is: 'unsure' }
  /** Not looked at to the end, because what is known of it is outdone already. */
  | { readonly is: 'outdone' }
  | ({ readonly is: 'holds' } & LeanMeasures)

/** `margin`: the most that the whole evaluation can find for the weakest limit; it may find less. */
export interface LeanMeasures {
  readonly margin: number
  readonly loss_W: number
  readonly effort: number
}

const conditionAt = {
  low: conditionById.get('minimum-100')!,
  weak: conditionById.get('power-corner')!,
  flux: conditionById.get('flux-corner')!,
  high: conditionById.get('maximum-100')!,
}
const overloadAt = [conditionById.get('overload-minimum')!, conditionById.get('overload-maximum')!] as const
const breaks: LeanAnswer = { is: 'breaks' }
const bulk = newBulkPoint()
/** Losses of each point, written over from candidate to candidate. */
const losses = {
  low: newLosses(),
  weak: newLosses(),
  high: newLosses(),
  flux: newLosses(),
  over: newLosses(),
}
/** ESR of an electrolytic at twice mains over that at 100 kHz; as the readings take it. */
const lowFrequencyResistance = 1.5

/** Flux at the greatest current limit, by the bulk's crest. */
export type FluxAt = (crest_V: number) => number

/** How thoroughly a candidate is judged. */
export interface Zeal {
  /** Reads every limit, where else the first broken one ends it. */
  readonly all: boolean
  /** True where such measures are of no use, so that the candidate need not be judged to its end. */
  readonly outdone: (m: LeanMeasures) => boolean
}

/** Tolerances of the lowest input with typical parts, and with the weakest. */
const typicalOf = ({ inductance_H, leakage_H, currentLimit_A, maximumDuty }: Stand['plant']) => ({
  inductance_H: inductance_H.typical,
  leakage_H: leakage_H.typical,
  limit_A: currentLimit_A.typical,
  maximumDuty: maximumDuty.typical,
})
const weakestOf = ({
  inductance_H,
  leakage_H,
  currentLimit_A,
  maximumDuty,
  frequency_Hz,
}: Stand['plant']) => ({
  inductance_H: inductance_H.minimum,
  leakage_H: leakage_H.maximum,
  limit_A: currentLimit_A.minimum,
  maximumDuty: maximumDuty.minimum,
  frequency_Hz: frequency_Hz.minimum,
})

const strongestOf = ({ inductance_H, leakage_H, currentLimit_A, maximumDuty }: Stand['plant']) => ({
  inductance_H: inductance_H.maximum,
  leakage_H: leakage_H.maximum,
  limit_A: currentLimit_A.maximum,
  maximumDuty: maximumDuty.typical,
})

/**
 * Judges a frame as if its coil had neither resistance nor leakage: where the weakest parts break a limit even so, no
 * copper mends it.
 */
export function bareBreaks(
  space: Space,
  stand: Stand,
  frame: Candidate['frame'],
  gap: Gap,
  t: Tally,
): boolean {
  dressBare(stand, space, frame, gap)
  const { plant: p, tables, parts } = stand
  const weak = settle(p, { table: tables.lowWeak, ...weakestOf(p) }, coldStart(p), bulk, losses.weak)
  if (typeof weak === 'string') return weak === 'stops'
  const around: Around = { need: space.need, parts, plant: p, bulk, primaryArea_m2: 1, secondaryArea_m2: 1 }
  return powerBreaks(around, weak, t, false, p.inductance_H.minimum)
}

/**
 * Judges a laid coil in a short, and at the lowest input without skin and proximity loss: `breaks` and `outdone` are then
 * so in earnest, and `unsure` means that the rest of the coil must tell. `found` is where that may be begun from.
 */
export function leanlyAtBest(
  space: Space,
  stand: Stand,
  c: Candidate,
  coil: QuickCoil,
  laid: LaidCoil,
  effort: number,
  fluxAt: FluxAt,
  t: Tally,
  zeal: Zeal,
): { readonly answer: LeanAnswer; readonly found: Start | null } {
  dressLightly(stand, coil)
  const { plant: p, tables } = stand
  const around: Around = {
    need: space.need,
    parts: partsWith(stand, c),
    plant: p,
    bulk,
    primaryArea_m2: coil.primaryInHand * copperArea_m2(c.primaryWire),
    secondaryArea_m2: coil.secondaryInHand * copperArea_m2(c.secondaryWire),
  }
  if (shortBreaks(around, stand.rails.idleCrest_V, fluxAt, t, false)) return { answer: breaks, found: null }
  if (likeTheLast(space, stand, c, laid, around, fluxAt, t)) return { answer: breaks, found: null }
  const low = settle(p, { table: tables.low, ...typicalOf(p) }, stand.low ?? coldStart(p), bulk, losses.low)
  if (typeof low === 'object') stand.low = warmed(p, low)
  if (low === 'stops') return { answer: stopped(t), found: null }
  if (low === 'unsure') return { answer: unsure, found: null }
  const doubt = low.doubt_W > 0
  if (heatBreaks(around, low, t, false))
    return { answer: doubt && t.margin > -doubtful ? unsure : breaks, found: low }
  const measures = {
    margin: Math.min(t.margin + (doubt ? doubtful : slack), stand.fixed.margin),
    loss_W: low.losses.total_W - 1.2 * low.doubt_W + p.standing_W + bulk.series_W + bulk.bleed_W,
    effort,
  }
  return { answer: zeal.outdone(measures) ? { is: 'outdone' } : unsure, found: low }
}

/** How much more than by slack a limit must be broken where skin and proximity loss are left out. */
const doubtWithoutExcess = 0.008
const tried = newTally()

/**
 * Whether a laid coil breaks in overload or by its ring, where the candidate before did, beyond what skin and proximity
 * loss may move: they hardly touch the peak current, and the ring is taken as dead as any coil damps it.
 */
function likeTheLast(
  space: Space,
  stand: Stand,
  c: Candidate,
  laid: LaidCoil,
  around: Around,
  fluxAt: FluxAt,
  t: Tally,
): boolean {
  const { brokeAt, plant: p } = stand
  if (brokeAt < firstOverload) return false
  tried.margin = Number.POSITIVE_INFINITY
  if (brokeAt === atRing) {
    p.secondaryLoop_H = loopOf_H(p)
    p.ringing = ringingOf(p, leastRingQuality, snubberOf(space, c.frame))
    idleRingBreaks(around, stand.rails.idleCrest_V, tried)
  } else {
    if (roughlyOverloaded(around, stand.rails.crest_V, t)) return true
    p.leakageStar = starWithTrack(laid.star, laid.leakage_H, p.turnsRatio)
    const over = overload(stand, brokeAt === firstOverload ? 0 : 1)
    if (over === 'stops') return false
    overloadBreaks(around, over, fluxAt, tried, false)
  }
  if (tried.margin > -slack - doubtWithoutExcess) return false
  t.margin = tried.margin
  t.id = tried.id
  return true
}

const unsure: LeanAnswer = { is: 'unsure' }

/** How far readings on the two sides of the boundary of modes may lie apart, as a margin. */
const doubtful = 0.1

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
const firstOverload = 4
/** Stands for the highest input where it is the ring that breaks there. */
const atRing = points.length

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

/** Inductance that the rectifier's current runs through, at the secondary. */
const loopOf_H = (p: Stand['plant']): number =>
  p.leakage_H.typical / p.turnsRatio ** 2 + can_H / p.outputCount

function strongestParts({ stand, around, t, all, start, fluxAt }: Trial): Verdict {
  const { plant: p, tables } = stand
  const lean = { table: tables.low, ...strongestOf(p) }
  const flux = settleSurely(p, lean, conditionAt.flux, start, bulk, losses.flux)
  if (flux === 'stops') return 'stops'
  if (clampBreaks(around, flux, t, all) || heatBreaks(around, flux, t, all)) return 'breaks'
  return verdict(hotCoreBreaks(around, flux.transformer_C, bulk.maximum_V, fluxAt, t) && !all)
}

/** Overload at the lowest input (0) and at the highest (1), begun from that of the candidate before. */
function overload(stand: Stand, at: 0 | 1): Settled | 'stops' {
  const { plant: p, tables, overloads } = stand
  const lean = { table: at === 0 ? tables.overLow : tables.overHigh, ...strongestOf(p), overload: true }
  const over = settleSurely(p, lean, overloadAt[at], overloads[at] ?? coldStart(p), bulk, losses.over)
  if (over !== 'stops') overloads[at] = warmed(p, over)
  return over
}

function overloaded(trial: Trial, at: 0 | 1): Verdict {
  const { stand, around, t, all, fluxAt } = trial
  const over = overload(stand, at)
  if (over === 'stops') return 'stops'
  ring(trial)
  return verdict(overloadBreaks(around, over, fluxAt, t, true) && !all)
}

function stopped(t: Tally): LeanAnswer {
  t.margin = -1
  t.id = 'supply.runs'
  return { is: 'breaks' }
}
