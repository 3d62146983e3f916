import { requireBetween } from '../quantity/require.ts'
import { type Load, loadConductance, type OutputFilter } from './output-filter.ts'

/** A flyback stage at one working point, referred to its primary unless the name says otherwise. */
export interface FlybackStage {
  readonly bulk_V: number
  /** Primary turns over secondary turns. */
  readonly turnsRatio: number
  readonly primaryInductance_H: number
  readonly frequency_Hz: number
  readonly output_V: number
  readonly output_A: number
  /** Constant part of the rectifier's drop. */
  readonly rectifierDrop_V: number
  /** Switch and primary winding while the switch is on. */
  readonly primaryResistance_ohm: number
  /** Rectifier slope and secondary winding, on the secondary side. */
  readonly secondaryResistance_ohm: number
  readonly filter: OutputFilter
  readonly load: Load
  /** Leakage at the primary and the clamp's voltage above the bulk; none when left out. */
  readonly leakage?: Leakage
}

export interface Leakage {
  readonly inductance_H: number
  readonly clamp_V: number
}

/**
 * Charge that the clamp takes from the secondary at every turn-off, at the secondary, per squared peak primary current,
 * C/A²: n Lk/(2 (Vclamp - Vreflected)).
 */
export function clampedCharge(stage: FlybackStage, reset_V: number): number {
  const k = stage.leakage
  if (k === undefined) return 0
  return (0.5 * stage.turnsRatio * k.inductance_H) / Math.max(k.clamp_V - reset_V, 0.1 * k.clamp_V)
}

/** What of the magnetising inductance transfers to the secondary: all but the leakage. */
export const coupledShare = (stage: FlybackStage): number =>
  1 - (stage.leakage?.inductance_H ?? 0) / stage.primaryInductance_H

export interface OperatingPoint {
  readonly mode: 'continuous' | 'discontinuous'
  readonly duty: number
  /** Part of the period in which the rectifier conducts. */
  readonly offDuty: number
  /** Magnetising current on the primary side: mean while it flows, and peak. */
  readonly magnetising_Aaverage: number
  readonly primary_Apeak: number
  /** Slope of the primary current while the switch is on. */
  readonly upSlope_A_per_s: number
  /** Voltage at the first output capacitor. */
  readonly firstCapacitor_V: number
}

export interface StageFailure {
  readonly ok: false
  readonly code: 'no-operating-point'
  readonly message: string
}

/**
 * Duty and currents of an ideal-switch flyback with resistances, from volt-second and charge balance.
 * Continuous: D (Vin - I Rp) = (1 - D) n (Vo + Vf + n I (Rs + D r)), n I (1 - D) = Io, r the part of the output
 * impedance that answers at once. Discontinuous: n Ip D2/2 = Io, D2 = L Ip f/(n (Vo + Vf + n Ip Rs/2 + r (n Ip/2 - Io))),
 * D = L Ip f/(Vin - Ip Rp/2). Leakage takes n Lk Ip²/(2 (Vclamp - n V)) of charge into the clamp at turn-off and, in
 * continuous mode, Lk Ivalley of volt-seconds at turn-on, while the rectifier still conducts.
 * Source: Erickson and Maksimovic, Fundamentals of Power Electronics, ch. 2, 3 and 5, with the working-out here.
 */
export function operatingPoint(stage: FlybackStage): ({ readonly ok: true } & OperatingPoint) | StageFailure {
  requireBetween('bulk_V', stage.bulk_V, 1, 2000, 'V')
  requireBetween('turnsRatio', stage.turnsRatio, 0.01, 1000)
  requireBetween('primaryInductance_H', stage.primaryInductance_H, 1e-7, 1, 'H')
  requireBetween('frequency_Hz', stage.frequency_Hz, 100, 1e7, 'Hz')
  requireBetween('output_V', stage.output_V, 0.1, 1000, 'V')
  requireBetween('output_A', stage.output_A, 1e-6, 1000, 'A')
  const n = stage.turnsRatio
  const first_V = stage.output_V + stage.output_A * (stage.filter.second?.resistance_ohm ?? 0)
  const f = stage.frequency_Hz
  const L = stage.primaryInductance_H

  const ideal_V = n * (first_V + stage.rectifierDrop_V)
  const instant_ohm = instantResistance(stage)
  let reset_V = ideal_V
  let peak = 0
  for (let k = 0; k < 6; k++) {
    const charge_s = (n * coupledShare(stage) * L) / (2 * reset_V) - clampedCharge(stage, reset_V)
    peak = Math.sqrt(stage.output_A / (f * charge_s))
    const mean_A = 0.5 * n * peak
    reset_V = ideal_V + n * (mean_A * stage.secondaryResistance_ohm + (mean_A - stage.output_A) * instant_ohm)
  }
  const rise_V = stage.bulk_V - 0.5 * peak * stage.primaryResistance_ohm
  if (rise_V > 0) {
    const duty = (L * peak * f) / rise_V
    const offDuty = (coupledShare(stage) * L * peak * f) / reset_V
    if (duty + offDuty < 1)
      return {
        ok: true,
        mode: 'discontinuous',
        duty,
        offDuty,
        magnetising_Aaverage: peak / 2,
        primary_Apeak: peak,
        upSlope_A_per_s: rise_V / L,
        firstCapacitor_V: first_V,
      }
  }
  return continuous(stage, first_V)
}

/** The part of the output impedance that answers at once: ESR of the first capacitor beside the load, ohm. */
export function instantResistance(stage: FlybackStage): number {
  const r = stage.filter.capacitorResistance_ohm
  if (stage.filter.second !== null) return r
  return r / (1 + r * loadConductance(stage.load, stage.output_V, stage.output_A))
}

function continuous(
  stage: FlybackStage,
  first_V: number,
): ({ readonly ok: true } & OperatingPoint) | StageFailure {
  const n = stage.turnsRatio
  const r = instantResistance(stage)
  const L = stage.primaryInductance_H
  const T = 1 / stage.frequency_Hz
  const lost_ohm = (stage.leakage?.inductance_H ?? 0) * stage.frequency_Hz
  const reset_V = n * (first_V + stage.rectifierDrop_V)
  const clamped = clampedCharge(stage, reset_V) * stage.frequency_Hz
  const carried = 0.5 * n * lost_ohm
  const currentAt = (D: number): { current: number; half: number } => {
    const half = (0.5 * stage.bulk_V * D * T) / L
    let current = stage.output_A / (n * (1 - D))
    for (let k = 0; k < 3 && lost_ohm > 0; k++) {
      const valley = Math.max(0, current - half)
      const lost = clamped * (current + half) ** 2 - (carried * valley * valley) / (stage.bulk_V + reset_V)
      current = (stage.output_A + lost) / (n * (1 - D))
    }
    return { current, half }
  }
  const rest = (D: number): number => {
    const { current, half } = currentAt(D)
    const secondary_V =
      first_V + stage.rectifierDrop_V + n * current * (stage.secondaryResistance_ohm + D * r)
    return (
      D * (stage.bulk_V - current * stage.primaryResistance_ohm) -
      (1 - D) * n * secondary_V -
      lost_ohm * Math.max(0, current - half)
    )
  }
  let low = 0
  let high = 0
  for (let D = 0.02; D < 0.985 && high === 0; D += 0.02) {
    if (rest(D) >= 0) high = D
    else low = D
  }
  if (high === 0)
    return {
      ok: false,
      code: 'no-operating-point',
      message: `no duty below 0.98 gives ${stage.output_V} V at ${stage.output_A} A from ${stage.bulk_V} V`,
    }
  for (let k = 0; k < 48; k++) {
    const D = 0.5 * (low + high)
    if (rest(D) < 0) low = D
    else high = D
  }
  const duty = 0.5 * (low + high)
  const { current } = currentAt(duty)
  const slope = (stage.bulk_V - current * stage.primaryResistance_ohm) / L
  return {
    ok: true,
    mode: 'continuous',
    duty,
    offDuty: 1 - duty,
    magnetising_Aaverage: current,
    primary_Apeak: current + (0.5 * slope * duty) / stage.frequency_Hz,
    upSlope_A_per_s: slope,
    firstCapacitor_V: first_V,
  }
}
