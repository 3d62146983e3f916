import { copperArea_m2 } from '../../magnetics/wire/index.ts'
import type { LaidCoil } from '../../supply/resolve/coil.ts'
import type { Gap } from '../../supply/resolve/gap.ts'
import { leastRingQuality } from '../../supply/resolve/leakage-damping.ts'
import { starWithTrack } from '../../supply/resolve/secondary-path.ts'
import type { Candidate } from '../space/candidate.ts'
import { snubberOf } from '../space/frames.ts'
import type { Space } from '../space/space.ts'
import { breaks, type FluxAt, type LeanAnswer, stopped, type Zeal } from './answer.ts'
import { dressBare, dressLightly, partsWith, ringingOf } from './dress.ts'
import {
  type Around,
  heatBreaks,
  idleRingBreaks,
  overloadBreaks,
  powerBreaks,
  shortBreaks,
} from './point-limits.ts'
import { atRing, firstOverload } from './points.ts'
import type { QuickCoil } from './quick-coil.ts'
import { coldStart, type Start, settle, warmed } from './settle.ts'
import { bulk, loopOf_H, losses, overload, typicalOf, weakestOf } from './solved-points.ts'
import type { Stand } from './stand.ts'
import { newTally, slack, type Tally } from './tally.ts'

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
