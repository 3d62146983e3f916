import { type Ceiling, powerCeiling } from '../../converter/ceiling.ts'
import { type StageCycle, stageCycle } from '../../converter/stage.ts'
import { insideRise, surfaceFactor, surfaceRise } from '../../heat/index.ts'
import { copperResistanceRatio } from '../../magnetics/wire/index.ts'
import type { Condition } from '../../supply/condition.ts'
import type { LossRecord, StageLosses } from '../../supply/evaluate/losses.ts'
import { operate } from '../../supply/evaluate/operate.ts'
import type { Plant } from '../../supply/evaluate/plant.ts'
import { onResistance_ohm, stageLosses } from '../../supply/evaluate/stage-losses.ts'
import { type BulkPoint, type BulkTable, readBulk } from './bulk-table.ts'

/** Tolerances and bulk for which one full-load point is settled. */
export interface Lean {
  readonly table: BulkTable
  readonly inductance_H: number
  readonly leakage_H: number
  readonly limit_A: number
  readonly maximumDuty: number
  /** Typical where left out. */
  readonly frequency_Hz?: number
  /** The current limit fixes what is drawn, and what losses leave of it is delivered; else the output asked for is. */
  readonly overload?: boolean
}

/** Where a point is begun from: one that is much like it. */
export interface Start {
  readonly stage_W: number
  readonly junction_C: number
  readonly transformer_C: number
  /** Across switch and primary, and across rectifier and secondary. */
  readonly drop_V: number
  readonly rectifier_V: number
}

/** A settled point; its losses are those of the record that was given for them. */
export interface Settled extends Start {
  readonly leakage_H: number
  readonly reflected_V: number
  readonly mean: StageCycle
  readonly valley: StageCycle
  readonly ceiling: Ceiling
  readonly losses: StageLosses
  readonly inside_C: number
  /** What the other side of the boundary of modes would save, where the evaluation may have settled there; else 0. */
  readonly doubt_W: number
}

/** Power that a first point is begun from, over the output. */
const firstGuess = 1.2

/** Where nothing like it has been solved yet. */
export const coldStart = (p: Plant): Start => ({
  stage_W: firstGuess * p.output_V * p.output_A,
  junction_C: p.ambient_C + 30,
  transformer_C: p.ambient_C + 30,
  drop_V: 1,
  rectifier_V: p.rectifierDrop_V,
})

/** Most by which a point is begun above ambient, K: what runs away with its heat has no other point so low. */
const mostWarmth_K = 60

/** Where the same point of the next candidate is begun from. */
export function warmed(p: Plant, { stage_W, junction_C, transformer_C, drop_V, rectifier_V }: Start): Start {
  const most_C = p.ambient_C + mostWarmth_K
  return {
    stage_W,
    junction_C: Math.min(junction_C, most_C),
    transformer_C: Math.min(transformer_C, most_C),
    drop_V,
    rectifier_V,
  }
}

const mostSteps = 40
const hottest_C = 400
/** A point is settled once its power moves by no more than this part of itself, and its heat by this. */
const settled = 2e-5
const stillWithin_K = 0.1

/**
 * Just at the boundary of modes the switch turns on at two different voltages, and a point may settle on either side;
 * which one the evaluation takes only it can tell. What the cheaper side saves where this one is continuous, W.
 */
function otherSide_W(p: Plant, s: StageCycle, bulk_V: number, reflected_V: number, stage_W: number): number {
  if (s.mode !== 'continuous') return 0
  const saved_W = 0.5 * p.drainCapacitance_F * s.rate_Hz * ((bulk_V + reflected_V) ** 2 - bulk_V * bulk_V)
  return s.valley_A < 5 * (saved_W / stage_W) * s.peak_A ? saved_W : 0
}

/**
 * One point in closed form, as the evaluation solves it, over tables of the mains side: the power that the stage draws,
 * currents, losses and heat that agree with each other. The relations are those of the evaluation; only
 * the bulk comes from a table, so that the two differ by its interpolation. `bulk` is left at the point found.
 * `stops`: no working point. `unsure`: outside of what the tables hold; only the whole evaluation can tell.
 */
export function settle(
  p: Plant,
  lean: Lean,
  start: Start,
  bulk: BulkPoint,
  losses: LossRecord,
): Settled | 'stops' | 'unsure' {
  const { table, inductance_H: L, leakage_H, limit_A, maximumDuty, overload = false } = lean
  const f = lean.frequency_Hz ?? p.frequency_Hz.typical
  const factor = surfaceFactor[p.cooling]
  const useful_W = p.output_V * p.output_A + p.standing_W
  let delivered_A = useful_W / p.output_V
  let { stage_W, junction_C, transformer_C, drop_V, rectifier_V } = start
  let inside_C = p.ambient_C
  let begun = false
  let refined = 0
  let overshoots = 0
  let previous_W = 0
  let previousGap = 0

  for (let step = 0; step < mostSteps; step++) {
    const read = readBulk(table, stage_W, bulk)
    if (read !== 'ok') {
      if (overload) return 'unsure'
      // A first guess may overshoot what the bulk carries: half way back to the least that can be drawn.
      if (read === 'collapses' && stage_W <= useful_W * 1.0001) return 'stops'
      if (read === 'beyond' || overshoots++ > 5) return 'unsure'
      stage_W = 0.5 * (stage_W + useful_W)
      continue
    }
    const { average_V, minimum_V } = bulk
    if (minimum_V <= drop_V + 5) return 'unsure'
    const reflected_V = (p.output_V + rectifier_V) * p.turnsRatio
    const mean = stageCycle({
      on_V: average_V - drop_V,
      reflected_V,
      inductance_H: L,
      frequency_Hz: f,
      average_A: stage_W / average_V,
      minimumOnTime_s: p.minimumOnTime_s,
    })
    stageLosses(
      p,
      mean,
      average_V,
      reflected_V,
      L,
      leakage_H,
      delivered_A,
      stage_W,
      { junction_C, transformer_C },
      !begun || refined === 1,
      losses,
    )
    begun = true
    if (!(losses.total_W < 5e3)) return 'unsure'
    const hot = copperResistanceRatio(20, transformer_C)
    const middle_A = 0.5 * (mean.peak_A + mean.valley_A)
    drop_V = middle_A * (onResistance_ohm(p, junction_C) + p.primaryResistance20_ohm * hot)
    const conducting_A = 0.5 * (losses.secondaryPeak_A + losses.secondaryValley_A)
    rectifier_V =
      p.rectifierDrop_V + conducting_A * (p.rectifierSlope_ohm + p.secondaryResistance20_ohm * hot)
    const beforeJunction_C = junction_C
    const beforeTransformer_C = transformer_C
    const all_W = Math.min(losses.total_W + p.standing_W + bulk.series_W, 500)
    inside_C = p.ambient_C + insideRise(p.cooling, all_W, p.caseSurface_m2)
    const switch_W =
      losses.switchConduction_W + losses.switchTransition_W + losses.switchCapacitive_W + losses.control_W
    const transformer_W =
      losses.core_W + losses.primaryCopper_W + losses.secondaryCopper_W + losses.biasCopper_W
    junction_C = Math.min(hottest_C, inside_C + switch_W * p.switchHeat_K_per_W * factor)
    transformer_C = Math.min(
      hottest_C,
      inside_C + surfaceRise(Math.min(transformer_W, 1e3), p.transformerSurface_m2) * factor,
    )
    const still =
      Math.abs(junction_C - beforeJunction_C) < stillWithin_K &&
      Math.abs(transformer_C - beforeTransformer_C) < stillWithin_K
    const ceiling = powerCeiling(
      minimum_V - drop_V,
      reflected_V,
      L,
      f,
      limit_A + (minimum_V / L + p.slope_A_per_s) * p.limitDelay_s,
      maximumDuty,
      p.slope_A_per_s,
    )
    const next_W = overload ? ceiling.average_A * minimum_V : useful_W + losses.total_W
    const beforeDelivered_A = delivered_A
    if (overload) delivered_A = (next_W - losses.total_W) / p.output_V
    const gap = next_W - stage_W
    const same = still && Math.abs(delivered_A - beforeDelivered_A) < 1e-3 * delivered_A
    if (refined > 0 && same && Math.abs(gap) < settled * stage_W)
      return {
        leakage_H,
        stage_W,
        reflected_V,
        mean,
        valley: stageCycle({
          on_V: minimum_V - drop_V,
          reflected_V,
          inductance_H: L,
          frequency_Hz: f,
          average_A: stage_W / minimum_V,
          minimumOnTime_s: p.minimumOnTime_s,
        }),
        ceiling,
        losses,
        inside_C,
        junction_C,
        transformer_C,
        drop_V,
        rectifier_V,
        doubt_W: overload ? 0 : otherSide_W(p, mean, average_V, reflected_V, stage_W),
      }
    if (refined > 0 || Math.abs(gap) < 2e-3 * stage_W) refined++
    const slope = step > 1 ? (gap - previousGap) / (stage_W - previous_W) : Number.NaN
    previous_W = stage_W
    previousGap = gap
    const leap_W = stage_W - gap / slope
    const [gentle, steep] = overload ? overloadSlopes : loadSlopes
    const near = slope < gentle && slope > steep && leap_W > 0.4 * stage_W && leap_W < 2.5 * stage_W
    stage_W = near ? leap_W : next_W
    if (!(stage_W > 0 && delivered_A > 0)) return 'unsure'
  }
  return 'unsure'
}

/** Slopes of the gap in power between which the secant is believed. */
const loadSlopes = [-0.05, -1.5] as const
const overloadSlopes = [-0.5, -20] as const

/**
 * The same, with the evaluation's own solver where the tables do not reach or the two sides of the boundary of modes
 * cannot be told apart; slower, and in no doubt.
 */
export function settleSurely(
  p: Plant,
  lean: Lean,
  condition: Condition,
  start: Start,
  bulk: BulkPoint,
  losses: LossRecord,
): Settled | 'stops' {
  const quick = settle(p, lean, start, bulk, losses)
  if (quick === 'stops' || (typeof quick === 'object' && quick.doubt_W === 0)) return quick
  const o = operate(p, condition)
  if (o === null) return 'stops'
  const side = o.input
  bulk.minimum_V = side.bulk.minimum_V
  bulk.average_V = side.bulk.average_V
  bulk.maximum_V = side.bulk.maximum_V
  bulk.bridge_W = side.bridge_W
  bulk.series_W = side.bridge_W + side.thermistor_W + side.fuse_W
  bulk.bleed_W = side.bleed_W
  bulk.input_Arms = side.bulk.input_Arms
  bulk.ripple_Arms = side.bulk.capacitorRipple_Arms
  bulk.diode_Aaverage = side.bulk.diode_Aaverage
  return { ...o, drop_V: start.drop_V, rectifier_V: start.rectifier_V, doubt_W: 0 }
}
