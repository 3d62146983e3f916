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
 * Greatest mean current that a flyback stage draws from the bulk at a given peak current, in the mode that holds there.
 *
 * Continuous: Iavg = D (Ilim - ΔI/2). Discontinuous: Iavg = D Ilim/2 with D = Ilim L f/Von, which is the power
 * L Ilim² f/2. When the chip cannot reach the duty of continuous mode, each cycle starts from zero and ends at
 * Von Dmax/(L f). `on_V` is bulk less switch drop. The discontinuous form applied to a continuous stage promises power
 * which is not there.
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
        average_A: 0.5 * reachable * maximumDuty,
        peak_A: reachable,
        duty: maximumDuty,
        stoppedBy: 'duty',
        mode: 'discontinuous',
      }
  }
  if (limit_A > rise && duty <= maximumDuty)
    return {
      average_A: duty * (limit_A - 0.5 * rise),
      peak_A: limit_A,
      duty,
      stoppedBy: 'current-limit',
      mode: 'continuous',
    }
  return {
    average_A: (0.5 * limit_A * limit_A * lf) / on_V,
    peak_A: limit_A,
    duty: (limit_A * lf) / on_V,
    stoppedBy: 'current-limit',
    mode: 'discontinuous',
  }
}
