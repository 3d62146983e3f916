import { continuousDuty } from './stage.ts'

/** The most that a stage can take from the bulk. */
export interface Ceiling {
  readonly power_W: number
  readonly peak_A: number
  readonly duty: number
  /** What stops it: the current limit, or the greatest duty of the chip. */
  readonly stoppedBy: 'current-limit' | 'duty'
  readonly mode: 'discontinuous' | 'continuous'
}

/**
 * Greatest power that a flyback stage draws from the bulk at a given peak current, in the mode that holds there.
 *
 * Continuous: P = Von D (Ilim - ΔI/2). Discontinuous: P = L Ilim² f/2. When the chip cannot reach the duty of
 * continuous mode, each cycle starts from zero and P = L (Von Dmax/(L f))² f/2.
 * `on_V` is bulk less switch drop; power is counted over the inductance. The discontinuous form applied to a
 * continuous stage promises power which is not there.
 */
export function powerCeiling(
  on_V: number,
  reflected_V: number,
  inductance_H: number,
  frequency_Hz: number,
  limit_A: number,
  maximumDuty: number,
): Ceiling {
  const lf = inductance_H * frequency_Hz
  const duty = continuousDuty(on_V, reflected_V)
  const rise = (on_V * duty) / lf
  if (duty > maximumDuty) {
    const reachable = (on_V * maximumDuty) / lf
    if (reachable <= limit_A)
      return {
        power_W: 0.5 * lf * reachable * reachable,
        peak_A: reachable,
        duty: maximumDuty,
        stoppedBy: 'duty',
        mode: 'discontinuous',
      }
  }
  if (limit_A > rise && duty <= maximumDuty)
    return {
      power_W: on_V * duty * (limit_A - 0.5 * rise),
      peak_A: limit_A,
      duty,
      stoppedBy: 'current-limit',
      mode: 'continuous',
    }
  return {
    power_W: 0.5 * lf * limit_A * limit_A,
    peak_A: limit_A,
    duty: (limit_A * lf) / on_V,
    stoppedBy: 'current-limit',
    mode: 'discontinuous',
  }
}
