import { continuousDuty } from './stage.ts'

/** The most that a stage can take from the bulk. */
export interface Ceiling {
  /** Mean current from the bulk; times the bulk voltage it is the power drawn. */
  readonly average_A: number
  readonly peak_A: number
  readonly duty: number
  /** What stops it: the current limit, or the greatest duty of the chip. */
  readonly stoppedBy: 'current-limit' | 'duty'
  readonly mode: 'discontinuous' | 'continuous'
}

/**
 * Greatest mean current that a flyback stage draws from the bulk at a given current limit, in the mode that holds there.
 * Slope compensation lowers the limit as the pulse goes on: Ipk = Ilim - s D/f. Continuous: Iavg = D (Ipk - ΔI/2).
 * Discontinuous: Iavg = D Ipk/2 with D = Ipk L f/Von, which is the power L Ipk² f/2, and Ipk = Ilim/(1 + s L/Von). When
 * the chip cannot reach the duty of continuous mode, each cycle starts from zero and ends at Von Dmax/(L f). `on_V` is
 * bulk less switch drop; `limit_A` has in it what the delay adds, (V/L + s) td. The discontinuous form applied to a
 * continuous stage promises power which is not there.
 */
export function powerCeiling(
  on_V: number,
  reflected_V: number,
  inductance_H: number,
  frequency_Hz: number,
  limit_A: number,
  maximumDuty: number,
  slope_A_per_s = 0,
): Ceiling {
  const lf = inductance_H * frequency_Hz
  const duty = continuousDuty(on_V, reflected_V)
  const rise = (on_V * duty) / lf
  if (duty > maximumDuty) {
    const reachable = (on_V * maximumDuty) / lf
    if (reachable <= limit_A - (slope_A_per_s * maximumDuty) / frequency_Hz)
      return {
        average_A: 0.5 * reachable * maximumDuty,
        peak_A: reachable,
        duty: maximumDuty,
        stoppedBy: 'duty',
        mode: 'discontinuous',
      }
  }
  const continuous_A = limit_A - (slope_A_per_s * duty) / frequency_Hz
  if (continuous_A > rise && duty <= maximumDuty)
    return {
      average_A: duty * (continuous_A - 0.5 * rise),
      peak_A: continuous_A,
      duty,
      stoppedBy: 'current-limit',
      mode: 'continuous',
    }
  const peak_A = limit_A / (1 + (slope_A_per_s * inductance_H) / on_V)
  return {
    average_A: (0.5 * peak_A * peak_A * lf) / on_V,
    peak_A,
    duty: (peak_A * lf) / on_V,
    stoppedBy: 'current-limit',
    mode: 'discontinuous',
  }
}
