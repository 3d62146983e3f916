import type { Optocoupler, Reference, Switcher } from '../parts/part.ts'
import { controlGain, type FeedbackPath, optocouplerPole, type Tap } from './feedback-path.ts'
import type { Modulator } from './power-stage.ts'
import { incrementalRatio, ledCurrentFor } from './transfer-ratio.ts'

/** Values round the reference, as a build settles them. */
export interface FeedbackValues {
  readonly dividerTop_ohm: number
  readonly dividerBottom_ohm: number
  readonly ledResistor_ohm: number
  readonly biasResistor_ohm: number
  readonly compensationResistor_ohm: number
  readonly compensationCapacitor_F: number
  readonly highFrequencyCapacitor_F: number
  readonly softFinishCapacitor_F: number
}

/** What differs from corner to corner. */
export interface FeedbackCorner {
  /** Transfer ratio at the optocoupler's test current. */
  readonly transferRatio: number
  /** Duty or peak current now, as a fraction of the greatest: sets the control pin's current and with it the LED's. */
  readonly drive: number
  readonly senseTap: 'first' | 'load'
  readonly ledTap: Tap
}

/**
 * Incremental resistance that a control pin shows the optocoupler: a shunt-regulating pin of a voltage-mode chip is of a
 * few ohms, a feedback pin with a pull-up of a peak-current chip of a few kilohms (common practice, no source).
 */
const pinLoad_ohm = { 'voltage-mode': 20, 'peak-current': 5000 } as const

/**
 * Control capacitor that voltage-mode chips of this kind ask for at the pin which also feeds them: 47 uF, and 6.8 ohm
 * in line with it (common practice, no source). It takes gain away from a few hundred hertz on.
 */
const askedCapacitor = { capacitance_F: 47e-6, series_ohm: 6.8, pin_ohm: pinLoad_ohm['voltage-mode'] }

/** Feedback path of a supply from its parts and values at one corner. */
export function feedbackPathFrom(
  values: FeedbackValues,
  parts: { readonly reference: Reference; readonly optocoupler: Optocoupler; readonly switcher: Switcher },
  corner: FeedbackCorner,
): FeedbackPath {
  const { reference, optocoupler, switcher } = parts
  const control = switcher.control
  const [full_A, zero_A] =
    control.style === 'voltage-mode'
      ? [control.fullDutyCurrent_A, control.zeroDutyCurrent_A]
      : [control.fullPowerCurrent_A, control.zeroPowerCurrent_A]
  const full =
    control.style === 'voltage-mode' ? switcher.maximumDuty.typical : switcher.currentLimit_A.typical
  const pin_A = zero_A + (full_A - zero_A) * Math.min(1, Math.max(0, corner.drive))
  const rated = { ratio: corner.transferRatio, test_A: optocoupler.testCurrent_A }
  const led_A = Math.max(1e-6, ledCurrentFor(rated, pin_A))
  return {
    ...values,
    senseTap: corner.senseTap,
    ledTap: corner.ledTap,
    referenceGain: reference.gain,
    referenceGainBandwidth_Hz: reference.gainBandwidth_Hz,
    transferRatio: incrementalRatio(rated, led_A),
    led_A,
    optocouplerPole_Hz: optocouplerPole(optocoupler, pinLoad_ohm[control.style]),
    controlGain: controlGain(control, full),
    controlPole_Hz: control.poleFrequency_Hz,
    ...(control.style === 'voltage-mode' && { controlCapacitor: askedCapacitor }),
  }
}

/** Modulator of a chip for `powerStage`. */
export const modulatorOf = (switcher: Switcher): Modulator =>
  switcher.control.style === 'voltage-mode'
    ? { style: 'voltage-mode' }
    : { style: 'peak-current', slope_A_per_s: switcher.control.slope_A_per_s }
