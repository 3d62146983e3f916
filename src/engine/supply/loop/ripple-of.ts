import {
  type FlybackStage,
  mainsRipple,
  modulatorOf,
  type OutputFilter,
  type OutputRipple,
  outputRipple,
  type PowerStage,
  powerStage,
} from '../../loop/index.ts'
import { filterPort, loadConductance } from '../../loop/output-filter.ts'
import { evaluate } from '../../loop/polynomial.ts'
import type { ConditionId } from '../condition.ts'
import { at, type Evaluation } from '../evaluation.ts'
import { loopAt } from './loop-of.ts'

/** Ripple at one frequency, peak to peak of that sine alone. */
export interface RippleLine {
  readonly frequency_Hz: number
  readonly first_Vpp: number
  readonly load_Vpp: number
}

/** Another filter, and the ripple at the load that it would leave. */
export interface RippleRemedy {
  readonly id: 'another capacitor' | 'more choke' | 'choke and capacitor' | 'ceramic'
  readonly load_Vpp: number
}

export interface RippleTable {
  readonly switching: OutputRipple
  /** What comes through of the bulk's ripple at twice the mains frequency; 0 from a DC source. */
  readonly mains_Vpp: number
  readonly lines: readonly RippleLine[]
  readonly remedies: readonly RippleRemedy[]
  /** Switching and mains ripple together at the load. */
  readonly load_Vpp: number
  /** False where the need feeds a battery, to which ripple matters little. */
  readonly matters: boolean
}

const harmonics = 6

/** Ripple at both output capacitors at a condition, by frequency, and what would lower it; null where the loop rests. */
export function rippleOf(evaluation: Evaluation, id: ConditionId): RippleTable | null {
  const corner = loopAt(evaluation, id)
  const running = at(evaluation, id)
  if (corner === null || running === null) return null
  const { stage, small, path } = corner
  const { design } = evaluation
  const { source } = design.need
  const switching = outputRipple(stage, small)
  const mains_Vpp =
    source.kind === 'mains'
      ? mainsRipple(stage, small, path, running.readings.bulkRipple_Vpp, source.frequency_Hz)
      : 0
  const lines = switchingLines(stage, small)
  return {
    switching,
    mains_Vpp,
    lines:
      source.kind === 'mains'
        ? [{ frequency_Hz: 2 * source.frequency_Hz, first_Vpp: mains_Vpp, load_Vpp: mains_Vpp }, ...lines]
        : lines,
    remedies: remediesFor(evaluation, stage),
    load_Vpp: switching.load_Vpp + mains_Vpp,
    matters: design.need.feeds !== 'charging',
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

/** A choke and capacitor that are always worth a try: 4.7 uH of 10 mohm, 220 uF of 50 mohm. */
const usualSecond = {
  inductance_H: 4.7e-6,
  resistance_ohm: 0.01,
  capacitance_F: 220e-6,
  capacitorResistance_ohm: 0.05,
}
/** Ceramic capacitor across the last electrolytic: 22 uF as biased, 5 mohm. */
const ceramic = { capacitance_F: 22e-6, resistance_ohm: 0.005 }

function remediesFor({ design }: Evaluation, stage: FlybackStage): RippleRemedy[] {
  const count = design.supply.build.outputCount
  const { filter } = stage
  const more = (count + 1) / count
  const f = stage.frequency_Hz
  const tried: [RippleRemedy['id'], OutputFilter][] = [
    [
      'another capacitor',
      {
        ...filter,
        capacitance_F: filter.capacitance_F * more,
        capacitorResistance_ohm: filter.capacitorResistance_ohm / more,
      },
    ],
    filter.second
      ? [
          'more choke',
          { ...filter, second: { ...filter.second, inductance_H: 2 * filter.second.inductance_H } },
        ]
      : ['choke and capacitor', { ...filter, second: usualSecond }],
    [
      'ceramic',
      filter.second
        ? { ...filter, second: { ...filter.second, ...beside(filter.second, f) } }
        : { ...filter, ...beside(filter, f) },
    ],
  ]
  return tried.flatMap(([id, changed]) => {
    const changedStage = { ...stage, filter: changed }
    const small = powerStage(changedStage, modulatorOf(design.parts.switcher))
    return small.ok ? [{ id, load_Vpp: outputRipple(changedStage, small).load_Vpp }] : []
  })
}

/** The ceramic in parallel with a capacitor, as one capacitor with resistance that is the same at the frequency. */
function beside(
  { capacitance_F, capacitorResistance_ohm }: { capacitance_F: number; capacitorResistance_ohm: number },
  frequency_Hz: number,
): { capacitance_F: number; capacitorResistance_ohm: number } {
  const w = 2 * Math.PI * frequency_Hz
  const admittance = (r: number, c: number): [number, number] => {
    const x = 1 / (w * c)
    const size = r * r + x * x
    return [r / size, x / size]
  }
  const [g1, b1] = admittance(capacitorResistance_ohm, capacitance_F)
  const [g2, b2] = admittance(ceramic.resistance_ohm, ceramic.capacitance_F)
  const g = g1 + g2
  const b = b1 + b2
  const size = g * g + b * b
  return { capacitorResistance_ohm: g / size, capacitance_F: size / (w * b) }
}
