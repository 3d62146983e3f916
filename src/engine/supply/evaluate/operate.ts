import { type Ceiling, powerCeiling } from '../../converter/ceiling.ts'
import { type StageCycle, stageCycle } from '../../converter/stage.ts'
import { insideRise, surfaceFactor, surfaceRise } from '../../heat/index.ts'
import { copperResistanceRatio } from '../../magnetics/wire/index.ts'
import type { Spread } from '../../quantity/spread.ts'
import type { Condition } from '../condition.ts'
import { atPower, type InputSide, inputSide } from './input-side.ts'
import { newLosses, type StageLosses } from './losses.ts'
import type { Plant } from './plant.ts'
import { type Heat, onResistance_ohm, stageLosses } from './stage-losses.ts'

/** One condition solved: power, voltage, current and heat agree with each other. */
export interface Operation {
  readonly input: InputSide
  /** Power that the stage draws from the bulk. */
  readonly stage_W: number
  readonly output_A: number
  readonly reflected_V: number
  readonly inductance_H: number
  readonly leakage_H: number
  readonly limit_A: number
  /** At the mean bulk voltage: what heats. */
  readonly mean: StageCycle
  /** At the bulk valley: what peaks. */
  readonly valley: StageCycle
  readonly ceiling: Ceiling
  readonly losses: StageLosses
  readonly junction_C: number
  readonly transformer_C: number
  readonly inside_C: number
}

const byCorner = (s: Spread, corner: Condition['corner']): number =>
  corner === 'typical' ? s.typical : corner === 'power' ? s.minimum : s.maximum

interface Temperatures extends Heat {
  junction_C: number
  transformer_C: number
  /** Air inside the case. */
  inside_C: number
}

/** Hotter than this nothing works any more; held there so that a hopeless design still settles. */
const hottest_C = 400

/** The most that the stage takes from a bulk valley. */
const ceilingAt = (
  p: Plant,
  l: { inductance_H: number; frequency_Hz: number; limit_A: number; maximumDuty: number },
  valley_V: number,
  drop_V: number,
  reflected_V: number,
): Ceiling =>
  powerCeiling(
    Math.max(1, valley_V - drop_V),
    reflected_V,
    l.inductance_H,
    l.frequency_Hz,
    l.limit_A + (valley_V / l.inductance_H + p.slope_A_per_s) * p.limitDelay_s,
    l.maximumDuty,
    p.slope_A_per_s,
  )

/** Writes the temperatures that losses lead to. */
function heatUp(heat: Temperatures, p: Plant, l: StageLosses, input: InputSide): void {
  const all_W = l.total_W + p.standing_W + input.bridge_W + input.thermistor_W + input.fuse_W
  const inside_C = p.ambient_C + insideRise(p.cooling, Math.min(all_W, 500), p.caseSurface_m2)
  const factor = surfaceFactor[p.cooling]
  const switch_W = l.switchConduction_W + l.switchTransition_W + l.switchCapacitive_W + l.control_W
  const transformer_W = l.core_W + l.primaryCopper_W + l.secondaryCopper_W + l.biasCopper_W
  const rise_K = surfaceRise(Math.min(transformer_W, 1e3), p.transformerSurface_m2)
  heat.inside_C = inside_C
  heat.junction_C = Math.min(hottest_C, inside_C + switch_W * p.switchHeat_K_per_W * factor)
  heat.transformer_C = Math.min(hottest_C, inside_C + rise_K * factor)
}

const mostSteps = 60
/** Steps of an overload before its power is halved in on. */
const stepsStraight = 14
/** Part of itself below which the power of an overload does not fall in one step, wherever a secant points. */
const leastStep = 0.2
/** Losses, or a power drawn, beyond this are no working point of a small supply. */
const mostLoss_W = 5e3

/** By how much of itself the bulk voltage would move if it were solved again at another power. */
const staleness = ({ bulk, power_W }: InputSide, stage_W: number): number =>
  (Math.abs(power_W - stage_W) / stage_W) * (0.001 + 1 - bulk.minimum_V / bulk.maximum_V)

/**
 * Solves one condition: finds the power that the stage must draw so that output, losses and bulk voltage agree, with
 * on-resistance and copper at their own temperatures. Fixed point over that power, sped up by the secant of two
 * steps, from `guess_W` where it is known. `near` is the mains corner of a neighbouring condition with the same bulk
 * capacitance, taken as it is where the power is near; `like` one of the same input, from which its solution is begun.
 * Null when there is none: the bulk collapses, or losses grow faster than the power drawn.
 */
export function operate(
  p: Plant,
  c: Condition,
  guess_W: number | null = null,
  near: InputSide | null = null,
  like: InputSide | null = near,
): Operation | null {
  const L = byCorner(p.inductance_H, c.corner)
  const leakage_H = c.corner === 'typical' ? p.leakage_H.typical : p.leakage_H.maximum
  const limit_A = byCorner(p.currentLimit_A, c.corner)
  const maximumDuty = c.corner === 'power' ? p.maximumDuty.minimum : p.maximumDuty.typical
  // A slow clock stores more for the same power: it needs the higher peak and leaves the lower ceiling.
  const f = c.corner === 'power' ? p.frequency_Hz.minimum : p.frequency_Hz.typical
  const capacitance_F = c.corner === 'power' ? p.bulk_F.minimum : p.bulk_F.typical
  const overload = c.load === null

  let output_A = p.output_A * (c.load ?? 1.2)
  let stage_W = guess_W ?? (p.output_V * output_A + p.standing_W) * 1.25 + 0.3
  let input = near
  const heat: Temperatures = {
    inside_C: p.ambient_C,
    junction_C: p.ambient_C + 30,
    transformer_C: p.ambient_C + 30,
  }
  let drop_V = 1
  let rectifier_V = p.rectifierDrop_V
  const losses = newLosses()
  // Powers between which that of an overload lies.
  let low_W = 0
  let high_W = Number.POSITIVE_INFINITY
  let begun = false
  let refine = false
  let refined = false
  let previous_W = 0
  let previousGap = 0
  let cycle: StageCycle
  let reflected_V = 0
  const limits = { inductance_H: L, frequency_Hz: f, limit_A, maximumDuty }

  for (let step = 0; ; step++) {
    if (step === mostSteps || stage_W > mostLoss_W) return null
    // The bulk is solved anew when the power has moved enough to move it, and once more when it has nearly settled.
    const halving = overload && step >= stepsStraight
    const stale: number = input === null || halving ? 1 : staleness(input, stage_W)
    if (stale > (refine ? 1e-3 : 2e-2)) {
      input = inputSide(p, c.input, capacitance_F, stage_W, input ?? like)
    }
    if (input === null || input.bulk.minimum_V <= drop_V + 5) {
      if (!overload) return null
      // The limit asks for more than the bulk carries: it sags, and less is drawn.
      high_W = Math.min(high_W, stage_W)
      stage_W = 0.5 * (low_W + high_W)
      input = null
      continue
    }
    const fresh = !begun || (refine && !refined)
    begun = true
    refined = refine
    const { average_V, minimum_V } = input.bulk
    reflected_V = (p.output_V + rectifier_V) * p.turnsRatio
    cycle = stageCycle({
      on_V: average_V - drop_V,
      reflected_V,
      inductance_H: L,
      frequency_Hz: f,
      average_A: stage_W / average_V,
      minimumOnTime_s: p.minimumOnTime_s,
    })
    const delivered_A = output_A + p.standing_W / p.output_V
    stageLosses(p, cycle, average_V, reflected_V, L, leakage_H, delivered_A, stage_W, heat, fresh, losses)
    if (!(losses.total_W < mostLoss_W)) return null

    // Voltages that depend on the currents just found, and heat that depends on the losses.
    const hot = copperResistanceRatio(20, heat.transformer_C)
    const middle_A = 0.5 * (cycle.peak_A + cycle.valley_A)
    drop_V = middle_A * (onResistance_ohm(p, heat.junction_C) + p.primaryResistance20_ohm * hot)
    const conducting_A = 0.5 * (losses.secondaryPeak_A + losses.secondaryValley_A)
    rectifier_V =
      p.rectifierDrop_V + conducting_A * (p.rectifierSlope_ohm + p.secondaryResistance20_ohm * hot)
    const { junction_C, transformer_C } = heat
    heatUp(heat, p, losses, input)
    const settled =
      Math.abs(heat.junction_C - junction_C) < 0.02 && Math.abs(heat.transformer_C - transformer_C) < 0.02

    if (overload) {
      // The limit fixes what is drawn; what is left after losses is delivered.
      const most_W = ceilingAt(p, limits, minimum_V, drop_V, reflected_V).average_A * minimum_V
      const drawn_W = halving ? stage_W : most_W
      const left_A = Math.max(0, (drawn_W - losses.total_W - p.standing_W) / p.output_V)
      const done = Math.abs(left_A - output_A) < 1e-6 * p.output_A && settled
      // Straight to it at first; then by the secant, as a small bulk sags the more is drawn; then by halving, as the
      // greatest duty may let what is drawn fall at a stroke.
      const over_W = most_W - stage_W
      const fall = step > 1 ? (over_W - previousGap) / (stage_W - previous_W) : Number.NaN
      let next_W = stage_W + (fall < -0.5 && fall > -20 ? -over_W / fall : step < 2 ? over_W : 0.5 * over_W)
      previous_W = stage_W
      previousGap = over_W
      if (halving) {
        if (most_W < stage_W) high_W = Math.min(high_W, stage_W)
        else low_W = Math.max(low_W, stage_W)
        next_W = high_W === Number.POSITIVE_INFINITY ? 1.2 * stage_W : 0.5 * (low_W + high_W)
      } else if (next_W >= high_W) next_W = 0.5 * (stage_W + high_W)
      else if (next_W < leastStep * stage_W) next_W = leastStep * stage_W
      const moved = Math.abs(next_W - stage_W) / stage_W
      if (done && refined && moved < 1e-5) {
        if (left_A === 0) return null
        break
      }
      refine ||= moved < 2e-3
      stage_W = next_W
      output_A = left_A
      continue
    }
    const wanted_W = p.output_V * output_A + p.standing_W + losses.total_W
    const gap = wanted_W - stage_W
    if (settled && refined && Math.abs(gap) < 1e-7 * stage_W) break
    refine ||= Math.abs(gap) < 2e-3 * stage_W
    if (wanted_W > 20 * (p.output_V * p.output_A + p.standing_W) + 20) return null
    let next_W = wanted_W
    const slope = step > 1 ? (gap - previousGap) / (stage_W - previous_W) : Number.NaN
    const leap_W = stage_W - gap / slope
    if (slope < -0.05 && slope > -1.5 && leap_W > 0.4 * stage_W && leap_W < 2.5 * stage_W) next_W = leap_W
    previous_W = stage_W
    previousGap = gap
    if (!(next_W > 0)) return null
    stage_W = next_W
  }

  const { minimum_V } = input.bulk
  const valley = stageCycle({
    on_V: minimum_V - drop_V,
    reflected_V,
    inductance_H: L,
    frequency_Hz: f,
    average_A: stage_W / minimum_V,
    minimumOnTime_s: p.minimumOnTime_s,
  })
  return {
    input: atPower(input, stage_W),
    stage_W,
    output_A,
    reflected_V,
    inductance_H: L,
    leakage_H,
    limit_A,
    mean: cycle,
    valley,
    ceiling: ceilingAt(p, limits, minimum_V, drop_V, reflected_V),
    losses,
    ...heat,
  }
}
