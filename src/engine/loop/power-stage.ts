import {
  clampedCharge,
  coupledShare,
  type FlybackStage,
  instantResistance,
  type OperatingPoint,
  operatingPoint,
  type StageFailure,
} from './operating-point.ts'
import { filterPort, loadConductance, secondResonance } from './output-filter.ts'
import { add, inX, multiply, type Polynomial, times } from './polynomial.ts'

/** How the chip sets the switch's on-time. */
export type Modulator =
  | { readonly style: 'voltage-mode' }
  /** `slope_A_per_s`: slope compensation referred to primary current. */
  | { readonly style: 'peak-current'; readonly slope_A_per_s: number }

/**
 * Small-signal power stage. Input is duty (voltage mode) or the commanded peak of the primary current (peak-current
 * mode). Voltages at the first capacitor and at the load share the denominator `den`.
 */
export interface PowerStage {
  readonly ok: true
  readonly point: OperatingPoint
  readonly toFirst: Polynomial
  readonly toLoad: Polynomial
  readonly den: Polynomial
  /** Linear equations behind it, for responses to disturbances. */
  readonly equations: StageEquations
  readonly features: StageFeatures
}

export interface StageEquations {
  readonly inductance_H: number
  /** (s L + loop) i = drive d - back v1;  io = carry i - steal d. */
  readonly loop_ohm: number
  readonly drive_V: number
  readonly back: number
  readonly carry: number
  readonly steal_A: number
  /** d = gain (u - sampled(s) i + ahead v1); for voltage mode d = u. */
  readonly modulatorGain: number
  readonly senses: boolean
  readonly ahead: number
  readonly samplePeriod_s: number
  readonly conductance_S: number
  /** Bulk voltage enters as (...) + feed vin in the current's equation, - stealInput vin in io, + line vin beside u. */
  readonly feed: number
  readonly stealInput_S: number
  readonly line_S: number
}

/** Where the curve bends, Hz; null where there is no such feature. */
export interface StageFeatures {
  readonly esrZero_Hz: number
  readonly rightHalfPlaneZero_Hz: number
  readonly doublePole_Hz: number | null
  readonly doublePoleQ: number | null
  readonly dominantPole_Hz: number | null
  readonly secondStage_Hz: number | null
  /** Quality factor of the pole pair at half the switching frequency; negative is subharmonic oscillation. */
  readonly halfFrequencyQ: number | null
}

/**
 * Control-to-output of a flyback.
 *
 * Continuous: state-space average with winding, switch, rectifier and capacitor resistances (Middlebrook and Cuk 1976;
 * Erickson and Maksimovic, 2nd ed., ch. 7 and 8). Discontinuous: full-order average of Sun, Mitchell, Greuel, Krein and
 * Bass, IEEE Trans. Power Electronics 16 (2001) 482, written out for the flyback, which gives the right-half-plane zero
 * 2 f/D and the second pole 2 (n V/Vin) f/D. Peak-current mode: modulator gain 1/((m1 + mc) T), sampling gain
 * He = 1 - s T/2 + (s T/pi)^2 and output feed-forward n D'^2 T/(2 L) of Ridley, IEEE Trans. Power Electronics 6 (1991)
 * 271; in discontinuous mode the current starts at zero, so neither is there. All from memory, checked by tests against
 * the switched circuit. Valid to about a third of the switching frequency.
 */
export function powerStage(stage: FlybackStage, modulator: Modulator): PowerStage | StageFailure {
  const point = operatingPoint(stage)
  if (!point.ok) return point
  const equations = stageEquations(stage, point, modulator)
  const port = filterPort(stage.filter, equations.conductance_S)
  const e = equations
  const branch: Polynomial = [e.loop_ohm, inX(e.inductance_H)]
  const forward = add([e.carry * e.drive_V], times(branch, -e.steal_A))
  const toFirst = multiply(port.n11, forward)
  const toLoad = multiply(port.n12, forward)
  let den = add(multiply(branch, port.den), times(port.n11, e.back * e.carry))
  const bare = den
  if (e.senses) {
    const T = e.samplePeriod_s
    const sampled: Polynomial = [1, inX(-T / 2), inX(inX((T / Math.PI) ** 2))]
    const toCurrent = add(times(port.den, e.drive_V), times(port.n11, e.back * e.steal_A))
    den = add(
      den,
      times(multiply(sampled, toCurrent), e.modulatorGain),
      times(toFirst, -e.modulatorGain * e.ahead),
    )
  }
  return {
    ok: true,
    point,
    toFirst: times(toFirst, e.modulatorGain),
    toLoad: times(toLoad, e.modulatorGain),
    den,
    equations,
    features: features(stage, point, modulator, e, bare),
  }
}

function stageEquations(stage: FlybackStage, point: OperatingPoint, modulator: Modulator): StageEquations {
  const n = stage.turnsRatio
  const L = stage.primaryInductance_H
  const T = 1 / stage.frequency_Hz
  const D = point.duty
  const conductance_S = loadConductance(stage.load, stage.output_V, stage.output_A)
  const compensation = modulator.style === 'peak-current' ? modulator.slope_A_per_s : 0
  const gain = modulator.style === 'peak-current' ? 1 / ((point.upSlope_A_per_s + compensation) * T) : 1
  if (point.mode === 'discontinuous') {
    const up_V = point.upSlope_A_per_s * L
    const reset_V = (up_V * D * coupledShare(stage)) / point.offDuty
    const kept = coupledShare(stage) - (2 * clampedCharge(stage, reset_V) * reset_V) / (n * L)
    return {
      inductance_H: L,
      loop_ohm: (2 * L * reset_V) / (up_V * D * T),
      drive_V: 2 * (up_V + reset_V),
      back: point.offDuty * n,
      carry: n * kept,
      steal_A: (kept * n * up_V * D * T) / L,
      modulatorGain: gain,
      senses: false,
      ahead: 0,
      samplePeriod_s: T,
      conductance_S,
      feed: D * (2 + D / point.offDuty),
      stealInput_S: (n * D * D * T) / (2 * L),
      line_S: modulator.style === 'peak-current' ? (-D * T) / L : 0,
    }
  }
  const I = point.magnetising_Aaverage
  const leak = continuousLeakage(stage, point)
  const r = instantResistance(stage)
  const off = 1 - D
  const secondary_V =
    point.firstCapacitor_V + stage.rectifierDrop_V + n * I * (stage.secondaryResistance_ohm + (2 * D - 1) * r)
  return {
    inductance_H: L,
    loop_ohm:
      D * stage.primaryResistance_ohm + off * n * n * (stage.secondaryResistance_ohm + D * r) + leak.loop_ohm,
    drive_V: stage.bulk_V - I * stage.primaryResistance_ohm + n * secondary_V,
    back: off * n,
    carry: off * n - leak.carry,
    steal_A: n * I + leak.steal_A,
    modulatorGain: gain,
    senses: modulator.style === 'peak-current',
    ahead: (n * off * off * T) / (2 * L),
    samplePeriod_s: T,
    conductance_S,
    feed: D,
    stealInput_S: 0,
    line_S: modulator.style === 'peak-current' ? ((-D * T) / L) * (1 - D / 2) : 0,
  }
}

/**
 * What leakage does in continuous mode. At turn-on the rectifier conducts on until the leakage carries the valley
 * current: volt-seconds Lk Iv are lost, a resistance Lk f without loss that damps the filter (as commutation of any
 * inductance does, e.g. Erickson and Maksimovic, problem on transformer leakage, from memory). At turn-off the clamp
 * takes a charge with the square of the peak.
 */
function continuousLeakage(
  stage: FlybackStage,
  point: OperatingPoint,
): { readonly loop_ohm: number; readonly carry: number; readonly steal_A: number } {
  const loop_ohm = (stage.leakage?.inductance_H ?? 0) * stage.frequency_Hz
  const reset_V = stage.turnsRatio * (point.firstCapacitor_V + stage.rectifierDrop_V)
  const clamped = 2 * clampedCharge(stage, reset_V) * stage.frequency_Hz * point.primary_Apeak
  const half_A = (0.5 * point.upSlope_A_per_s) / stage.frequency_Hz
  const valley_A = Math.max(0, 2 * point.magnetising_Aaverage - point.primary_Apeak)
  const carried = (stage.turnsRatio * loop_ohm * valley_A) / (stage.bulk_V + reset_V)
  return { loop_ohm, carry: clamped - carried, steal_A: half_A * (clamped + carried) }
}

function features(
  stage: FlybackStage,
  point: OperatingPoint,
  modulator: Modulator,
  e: StageEquations,
  bare: Polynomial,
): StageFeatures {
  const filter = stage.filter
  const zero = (e.carry * e.drive_V - e.steal_A * e.loop_ohm) / (e.steal_A * e.inductance_H)
  const pair = point.mode === 'continuous' && modulator.style === 'voltage-mode' && bare.length >= 3
  const omega = pair && filter.second === null ? Math.sqrt(bare[0]! / bare[2]!) : null
  const ratio = 1 + (modulator.style === 'peak-current' ? modulator.slope_A_per_s / point.upSlope_A_per_s : 0)
  const dominant =
    (e.conductance_S + (point.mode === 'discontinuous' ? stage.output_A / reset(stage) : 0)) /
    (2 * Math.PI * filter.capacitance_F)
  return {
    esrZero_Hz: 1 / (2 * Math.PI * filter.capacitance_F * Math.max(filter.capacitorResistance_ohm, 1e-9)),
    rightHalfPlaneZero_Hz: zero / (2 * Math.PI),
    doublePole_Hz: omega === null ? null : omega * 1000,
    doublePoleQ: omega === null ? null : bare[0]! / (bare[1]! * omega),
    dominantPole_Hz: pair ? null : dominant,
    secondStage_Hz: secondResonance(filter),
    halfFrequencyQ:
      e.senses && modulator.style === 'peak-current'
        ? 1 / (Math.PI * (ratio * (1 - point.duty) - 0.5))
        : null,
  }
}

const reset = (stage: FlybackStage): number => stage.output_V + stage.rectifierDrop_V
