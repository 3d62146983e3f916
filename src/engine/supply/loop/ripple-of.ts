import {
  type FlybackStage,
  mainsRipple,
  type OutputRipple,
  outputRipple,
  type PowerStage,
} from '../../loop/index.ts'
import { filterPort, loadConductance } from '../../loop/output-filter.ts'
import { evaluate } from '../../loop/polynomial.ts'
import type { Drawer } from '../../parts/part.ts'
import type { ConditionId } from '../condition.ts'
import { at, type Evaluation } from '../evaluation.ts'
import type { Corner } from './corners.ts'
import { typicalAt } from './loop-of.ts'
import { type RippleRemedy, rippleRemedies } from './ripple-remedies.ts'

/** Ripple at one frequency, peak to peak of that sine alone. */
export interface RippleLine {
  readonly frequency_Hz: number
  readonly first_Vpp: number
  readonly load_Vpp: number
}

/** What reaches the load. */
export interface LoadRipple {
  readonly switching: OutputRipple
  /** What comes through of the bulk's ripple at twice the mains frequency; 0 from a DC source. */
  readonly mains_Vpp: number
  /** Switching and mains ripple together at the load. */
  readonly load_Vpp: number
  /** False where the need feeds a battery, to which ripple matters little. */
  readonly matters: boolean
}

export interface RippleTable extends LoadRipple {
  readonly lines: readonly RippleLine[]
  readonly remedies: readonly RippleRemedy[]
}

const harmonics = 6

/** Ripple at the load at a condition; null where the loop rests. */
export function loadRippleOf(evaluation: Evaluation, id: ConditionId): LoadRipple | null {
  const corner = typicalAt(evaluation, id)
  return corner && atCorner(evaluation, corner, id)
}

function atCorner(
  evaluation: Evaluation,
  { stage, small, path }: Corner,
  id: ConditionId,
): LoadRipple | null {
  const running = at(evaluation, id)
  if (running === null) return null
  const { source, feeds } = evaluation.design.need
  const switching = outputRipple(stage, small)
  const mains_Vpp =
    source.kind === 'mains'
      ? mainsRipple(stage, small, path, running.readings.bulkRipple_Vpp, source.frequency_Hz)
      : 0
  return { switching, mains_Vpp, load_Vpp: switching.load_Vpp + mains_Vpp, matters: feeds !== 'charging' }
}

/**
 * Ripple at both output capacitors at a condition, by frequency, and what would lower it, with parts of the drawer where
 * one is given; null where the loop rests.
 */
export function rippleOf(
  evaluation: Evaluation,
  id: ConditionId,
  drawer: Drawer | null = null,
): RippleTable | null {
  const corner = typicalAt(evaluation, id)
  const load = corner && atCorner(evaluation, corner, id)
  if (!corner || !load) return null
  const { stage, small } = corner
  const { design } = evaluation
  const { source } = design.need
  const { mains_Vpp } = load
  const lines = switchingLines(stage, small)
  return {
    ...load,
    lines:
      source.kind === 'mains'
        ? [{ frequency_Hz: 2 * source.frequency_Hz, first_Vpp: mains_Vpp, load_Vpp: mains_Vpp }, ...lines]
        : lines,
    remedies: rippleRemedies(design, stage, drawer),
  }
}

/**
 * Harmonics of the rectifier's current, a ramp from `top` to `end` over the off-time, through the filter's impedances.
 * Fourier coefficients of a ramp, any textbook.
 */
function switchingLines(stage: FlybackStage, { point }: PowerStage): RippleLine[] {
  const f = stage.frequency_Hz
  const fall_s = point.offDuty / f
  const top = stage.turnsRatio * point.primary_Apeak
  const end = Math.max(0, (2 * stage.output_A) / (f * fall_s) - top)
  const slope = (end - top) / fall_s
  const port = filterPort(stage.filter, loadConductance(stage.load, stage.output_V, stage.output_A))
  const z = new Float64Array(2)
  return Array.from({ length: harmonics }, (_, k) => {
    const frequency_Hz = (k + 1) * f
    const w = 2 * Math.PI * frequency_Hz
    const cos = Math.cos(w * fall_s)
    const sin = Math.sin(w * fall_s)
    const re = (end * sin) / w + (slope * (cos - 1)) / (w * w)
    const im = (end * cos - top) / w - (slope * sin) / (w * w)
    const current_App = 4 * f * Math.hypot(re, im)
    evaluate({ num: port.n11, den: port.den }, frequency_Hz, z)
    const first_Vpp = current_App * Math.hypot(z[0]!, z[1]!)
    evaluate({ num: port.n12, den: port.den }, frequency_Hz, z)
    return { frequency_Hz, first_Vpp, load_Vpp: current_App * Math.hypot(z[0]!, z[1]!) }
  })
}
