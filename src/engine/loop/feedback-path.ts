import { requireBetween } from '../quantity/require.ts'
import { add, inX, multiply, type Polynomial, times } from './polynomial.ts'

/** Where a feedback branch takes its voltage: at the first output capacitor, at the load, or from a fixed rail. */
export type Tap = 'first' | 'load' | 'fixed'

/** Shunt reference, optocoupler and the chip's control input, with part values. */
export interface FeedbackPath {
  readonly dividerTop_ohm: number
  readonly dividerBottom_ohm: number
  /** Series resistor and capacitor from cathode to reference input, and the capacitor across both. */
  readonly compensationResistor_ohm: number
  readonly compensationCapacitor_F: number
  readonly highFrequencyCapacitor_F: number
  readonly ledResistor_ohm: number
  /** Resistor across the optocoupler's LED; infinite for none. */
  readonly biasResistor_ohm: number
  /** Capacitor from the reference's cathode to output return. */
  readonly softFinishCapacitor_F: number
  readonly senseTap: 'first' | 'load'
  /** Feed of the LED: its own fast lane round the reference, unless the rail is fixed. */
  readonly ledTap: Tap
  readonly referenceGain: number
  readonly referenceGainBandwidth_Hz: number
  readonly transferRatio: number
  readonly led_A: number
  readonly optocouplerPole_Hz: number
  /** Duty per ampere, or ampere of peak current per ampere, that control current takes away. */
  readonly controlGain: number
  readonly controlPole_Hz: number
  /** Capacitor with its series resistance from the control pin to its return, beside the pin; none when left out. */
  readonly controlCapacitor?: ControlCapacitor
}

export interface ControlCapacitor {
  readonly capacitance_F: number
  /** Own series resistance and that of a resistor in line with it. */
  readonly series_ohm: number
  /** What the pin itself shows. */
  readonly pin_ohm: number
}

/**
 * Share of the optocoupler's current that enters the control pin beside its capacitor:
 * (1 + s C Rs)/(1 + s C (Rs + Rpin)), as time constants of zero and pole, s. Both 0 without a capacitor.
 */
export const controlShare = (c: ControlCapacitor | undefined): { zero_s: number; pole_s: number } =>
  c === undefined
    ? { zero_s: 0, pole_s: 0 }
    : { zero_s: c.capacitance_F * c.series_ohm, pole_s: c.capacitance_F * (c.series_ohm + c.pin_ohm) }

/** Control input of a switcher: what one ampere more of control current takes off duty or peak current. */
export function controlGain(
  control:
    | {
        readonly style: 'voltage-mode'
        readonly fullDutyCurrent_A: number
        readonly zeroDutyCurrent_A: number
      }
    | {
        readonly style: 'peak-current'
        readonly fullPowerCurrent_A: number
        readonly zeroPowerCurrent_A: number
      },
  full: number,
): number {
  const span =
    control.style === 'voltage-mode'
      ? control.zeroDutyCurrent_A - control.fullDutyCurrent_A
      : control.zeroPowerCurrent_A - control.fullPowerCurrent_A
  requireBetween('control current span', span, 1e-9, 1, 'A')
  return full / span
}

/**
 * Pole of the optocoupler with another load: the phototransistor's collector capacitance makes it fall as 1/R. A load
 * below the data sheet's (a low-impedance control pin) raises it, by no more than five times, where the device's own
 * transit time takes over (common practice, no source).
 */
export function optocouplerPole(
  part: { readonly pole_Hz: number; readonly poleLoad_ohm: number },
  load_ohm: number,
): number {
  requireBetween('load_ohm', load_ohm, 0, 1e9, 'ohm')
  return part.pole_Hz * Math.min(5, part.poleLoad_ohm / Math.max(load_ohm, 1e-3))
}

/** Incremental resistance of the LED at its current: 2 kT/q over I (ideality 2, common practice, no source), ohm. */
export const ledResistance = (led_A: number): number => 0.052 / led_A

/**
 * The path as polynomials: control input taken away = (slow v_sense + fast v_led)/den.
 *
 * Cathode: v_k = -(1/R1) Nz v_sense/(Dz + (Dz + Nz/(R1||R2))/A), with Z = Nz/Dz = (1 + s R C)/(s (C + Ch) + s^2 R C Ch)
 * between cathode and reference input and A the reference's open-loop gain, whose poles are its own and that of the
 * soft-finish capacitor with the LED resistor. LED current (v_led - v_k)/(Rled + rd||Rb), of which Rb/(Rb + rd) passes
 * through the LED. Two-lane view: Basso, Designing Control Loops for Linear and Switching Power Supplies, ch. 7
 * (from memory).
 */
export interface PathPolynomials {
  readonly slow: Polynomial
  readonly fast: Polynomial
  readonly den: Polynomial
}

export function pathPolynomials(path: FeedbackPath): PathPolynomials {
  requireBetween('dividerTop_ohm', path.dividerTop_ohm, 1e-3, 1e9, 'ohm')
  requireBetween('dividerBottom_ohm', path.dividerBottom_ohm, 1e-3, 1e9, 'ohm')
  requireBetween('compensationCapacitor_F', path.compensationCapacitor_F, 1e-13, 1, 'F')
  requireBetween('ledResistor_ohm', path.ledResistor_ohm, 1e-3, 1e9, 'ohm')
  requireBetween('led_A', path.led_A, 1e-7, 1, 'A')
  requireBetween('transferRatio', path.transferRatio, 1e-4, 100)
  const C = path.compensationCapacitor_F
  const Ch = path.highFrequencyCapacitor_F
  const R = path.compensationResistor_ohm
  const nz: Polynomial = [1, inX(R * C)]
  const dz: Polynomial = [0, inX(C + Ch), inX(inX(R * C * Ch))]
  const input_S = 1 / path.dividerTop_ohm + 1 / path.dividerBottom_ohm
  const inverseGain = times(
    multiply(
      [1, inX(path.referenceGain / (2 * Math.PI * path.referenceGainBandwidth_Hz))],
      [1, inX(path.ledResistor_ohm * path.softFinishCapacitor_F)],
    ),
    1 / path.referenceGain,
  )
  const cathode = add(dz, multiply(add(dz, times(nz, input_S)), inverseGain))
  const rd = ledResistance(path.led_A)
  const share = Number.isFinite(path.biasResistor_ohm)
    ? path.biasResistor_ohm / (path.biasResistor_ohm + rd)
    : 1
  const gain = (path.transferRatio * path.controlGain * share) / (path.ledResistor_ohm + rd * share)
  const lag = multiply([1, 1000 / path.optocouplerPole_Hz], [1, 1000 / path.controlPole_Hz])
  const entering = controlShare(path.controlCapacitor)
  const zero: Polynomial = entering.zero_s > 0 ? [1, inX(entering.zero_s)] : [1]
  const pole: Polynomial = entering.pole_s > 0 ? [1, inX(entering.pole_s)] : [1]
  return {
    slow: times(multiply(nz, zero), gain / path.dividerTop_ohm),
    fast: path.ledTap === 'fixed' ? [0] : times(multiply(cathode, zero), gain),
    den: multiply(cathode, lag, pole),
  }
}
