import { copperArea_m2 } from '../../magnetics/wire/index.ts'
import { conditionById } from '../../supply/condition.ts'
import { operate } from '../../supply/evaluate/operate.ts'
import type { Coil } from '../../supply/resolve/coil.ts'
import type { Gap } from '../../supply/resolve/gap.ts'
import { can_H } from '../../supply/resolve/secondary-path.ts'
import type { Candidate } from '../space/candidate.ts'
import { snubberOf } from '../space/frames.ts'
import type { Space } from '../space/space.ts'
import { dress, dressLightly, partsWith, ringingOf, type Stand } from './bench.ts'
import { newBulkPoint } from './bulk-table.ts'
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
import type { QuickCoil } from './quick-coil.ts'
import { settle, settleSurely } from './settle.ts'
import { slack, type Tally } from './tally.ts'

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
const overloads = [conditionById.get('overload-minimum')!, conditionById.get('overload-maximum')!]
const breaks: LeanAnswer = { is: 'breaks' }
const bulk = newBulkPoint()
/** Power that the first point is begun from, over the output. */
const firstGuess = 1.2
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

/**
 * Judges a candidate with a coil better than its own can be, before that is wound: `breaks` and `outdone` are then so in
 * earnest, and `unsure` means that its own coil must tell.
 */
export function leanlyAtBest(
  space: Space,
  stand: Stand,
  c: Candidate,
  gap: Gap,
  coil: QuickCoil,
  leakage: { readonly value_H: number; readonly own: boolean },
  effort: number,
  fluxAt: FluxAt,
  t: Tally,
  zeal: Zeal,
): LeanAnswer {
  dressLightly(stand, space, c.frame, gap, coil, leakage.value_H)
  const { plant: p, tables } = stand
  const parts = partsWith(stand, c)
  const around: Around = {
    need: space.need,
    parts,
    plant: p,
    bulk,
    primaryArea_m2: coil.primaryInHand * copperArea_m2(c.primaryWire),
    secondaryArea_m2: coil.secondaryInHand * copperArea_m2(c.secondaryWire),
  }
  // In a short the current climbs the higher the less the leakage, so that the least of it would not err on the good side.
  if (leakage.own && shortBreaks(around, stand.rails.idleCrest_V, fluxAt, t, false, false)) return breaks
  const low = settle(
    p,
    {
      table: tables.low,
      inductance_H: p.inductance_H.typical,
      leakage_H: p.leakage_H.typical,
      limit_A: p.currentLimit_A.typical,
      maximumDuty: p.maximumDuty.typical,
    },
    firstGuess * p.output_V * p.output_A,
    bulk,
  )
  if (typeof low === 'string') return low === 'stops' ? stopped(t) : { is: 'unsure' }
  const doubt = low.doubt_W > 0
  if (heatBreaks(around, low, t, false)) return broken(t, doubt)
  const measures = {
    margin: Math.min(t.margin + (doubt ? doubtful : slack), stand.fixed.margin),
    loss_W: low.losses.total_W - 1.2 * low.doubt_W + p.standing_W + bulk.series_W + bulk.bleed_W,
    effort,
  }
  return zeal.outdone(measures) ? { is: 'outdone' } : { is: 'unsure' }
}

/**
 * Judges a candidate on its decisive limits at the four full-load points that decide: typical tolerances at the lowest
 * input, the weakest and those of most leakage there, and the highest input.
 */
export function leanly(
  space: Space,
  stand: Stand,
  c: Candidate,
  gap: Gap,
  coil: Coil,
  effort: number,
  fluxAt: FluxAt,
  t: Tally,
  zeal: Zeal,
): LeanAnswer {
  const { all } = zeal
  dress(stand, space, c.frame, gap, coil)
  const { plant: p, tables } = stand
  const parts = partsWith(stand, c)
  const around: Around = {
    need: space.need,
    parts,
    plant: p,
    bulk,
    primaryArea_m2: coil.primary.copperArea_m2,
    secondaryArea_m2: coil.secondary.copperArea_m2,
  }
  const { inductance_H: L, leakage_H: leak, currentLimit_A: limit, maximumDuty: duty } = p
  const typical = {
    inductance_H: L.typical,
    leakage_H: leak.typical,
    limit_A: limit.typical,
    maximumDuty: duty.typical,
  }
  if (shortBreaks(around, stand.rails.idleCrest_V, fluxAt, t, all)) return breaks

  const first_W = firstGuess * p.output_V * p.output_A
  const low = settleSurely(p, { table: tables.low, ...typical }, conditionAt.low, first_W, bulk)
  if (low === 'stops') return stopped(t)
  if (clampBreaks(around, low, t, all) || heatBreaks(around, low, t, all)) return breaks
  const line_W =
    (bulk.ripple_Arms * bulk.ripple_Arms * p.bulkResistance_ohm * lowFrequencyResistance) / p.bulkCount
  const loss_W = low.losses.total_W + p.standing_W + bulk.series_W + bulk.bleed_W + line_W
  const measures = (): LeanMeasures => ({
    margin: Math.min(t.margin + slack, stand.fixed.margin),
    loss_W,
    effort,
  })
  if (!all && zeal.outdone(measures())) return { is: 'outdone' }

  const weakest = {
    table: tables.lowWeak,
    inductance_H: L.minimum,
    leakage_H: leak.maximum,
    limit_A: limit.minimum,
    maximumDuty: duty.minimum,
    frequency_Hz: p.frequency_Hz.minimum,
  }
  const weak = settleSurely(p, weakest, conditionAt.weak, low.stage_W, bulk)
  if (weak === 'stops') return stopped(t)
  if (powerBreaks(around, weak, t, all, L.minimum)) return breaks
  if (clampBreaks(around, weak, t, all)) return breaks
  if (heatBreaks(around, weak, t, all)) return breaks
  if (chargeBreaks(around, weak, t, all)) return breaks
  if (!all && zeal.outdone(measures())) return { is: 'outdone' }

  const high = settleSurely(p, { table: tables.high, ...typical }, conditionAt.high, low.stage_W, bulk)
  if (high === 'stops') return stopped(t)
  if (clampBreaks(around, high, t, all) || heatBreaks(around, high, t, all)) return breaks
  if (surgeBreaks(around, high, stand.surged_V, t) && !all) return breaks
  p.secondaryLoop_H = leak.typical / p.turnsRatio ** 2 + can_H / p.outputCount
  p.ringing = ringingOf(p, coil, snubberOf(space, c.frame))
  if (ringBreaks(around, high, stand.rails.idleCrest_V, t, all)) return breaks

  const strongest = {
    table: tables.low,
    inductance_H: L.maximum,
    leakage_H: leak.maximum,
    limit_A: limit.maximum,
    maximumDuty: duty.typical,
  }
  const flux = settleSurely(p, strongest, conditionAt.flux, low.stage_W, bulk)
  if (flux === 'stops') return stopped(t)
  if (clampBreaks(around, flux, t, all) || heatBreaks(around, flux, t, all)) return breaks
  if (hotCoreBreaks(around, flux.transformer_C, bulk.maximum_V, fluxAt, t) && !all) return breaks
  if (!all && zeal.outdone(measures())) return { is: 'outdone' }
  for (const condition of overloads) {
    const over = operate(p, condition)
    if (over === null) return stopped(t)
    if (overloadBreaks(around, over, fluxAt, t) && !all) return breaks
  }
  if (!all && zeal.outdone(measures())) return { is: 'outdone' }
  return { is: 'holds', ...measures() }
}

/** How far readings on the two sides of the boundary of modes may lie apart, as a margin. */
const doubtful = 0.1

const broken = (t: Tally, doubt: boolean): LeanAnswer =>
  doubt && t.margin > -doubtful ? { is: 'unsure' } : { is: 'breaks' }

function stopped(t: Tally): LeanAnswer {
  t.margin = -1
  t.id = 'supply.runs'
  return { is: 'breaks' }
}
