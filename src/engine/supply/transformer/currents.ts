import { type Harmonics, piecewiseLinearHarmonics } from '../../magnetics/field/index.ts'
import type { WindingName } from '../build.ts'
import type { Operation } from '../evaluate/operate.ts'

/** Current of one winding over one switching period, positive into its start: straight lines between points. */
export interface CurrentWave {
  readonly time_s: readonly number[]
  readonly current_A: readonly number[]
}

/** Currents of all windings in one period while pulses come. */
export interface WindingCurrents {
  readonly frequency_Hz: number
  /** Part of all periods in which a pulse comes: 1 unless pulses are skipped. */
  readonly share: number
  readonly waves: Readonly<Record<WindingName, CurrentWave>>
}

/** A ramp from `start` to `end` between two times of a period, zero else. */
const ramp = (from_s: number, to_s: number, start_A: number, end_A: number): CurrentWave => ({
  time_s: [from_s, from_s, to_s, to_s],
  current_A: [0, start_A, end_A, 0],
})

/**
 * True currents of a flyback stage at a solved operating point: the primary ramps from valley to peak in the on-time,
 * then the secondary falls while the rectifier conducts, to zero in discontinuous mode; the bias winding feeds the chip
 * in the same time and the same shape. All magnetise the core the same way. Commutation through the leakage (tens of
 * nanoseconds) is left out: it moves current between windings, not its harmonics below some megahertz.
 */
export function windingCurrents(o: Operation, frequency_Hz: number, chipSupply_A: number): WindingCurrents {
  const { mean, losses } = o
  const period_s = 1 / frequency_Hz
  const on_s = mean.duty * period_s
  const off_s = Math.min(period_s, on_s + losses.secondaryDuty * period_s)
  const { secondaryPeak_A, secondaryValley_A, share } = losses
  const form = secondaryValley_A / secondaryPeak_A
  const biasPeak_A = (2 * chipSupply_A) / share / (losses.secondaryDuty * (1 + form))
  return {
    frequency_Hz,
    share,
    waves: {
      primary: ramp(0, on_s, mean.valley_A, mean.peak_A),
      secondary: ramp(on_s, off_s, secondaryPeak_A, secondaryValley_A),
      bias: ramp(on_s, off_s, biasPeak_A, biasPeak_A * form),
    },
  }
}

/** Harmonics of each winding, in the order of `windings`. */
const harmonicsOf = (currents: WindingCurrents, windings: readonly string[], count: number): Harmonics[] =>
  windings.map((winding) => {
    const wave = currents.waves[winding as WindingName]
    return piecewiseLinearHarmonics(wave.time_s, wave.current_A, 1 / currents.frequency_Hz, count)
  })

/** Harmonics of the switching frequency that copper loss is summed over. */
const fieldHarmonics = 20

/** Harmonics of each winding as copper loss needs them. */
export const waveHarmonics = (currents: WindingCurrents, windings: readonly string[]): Harmonics[] =>
  harmonicsOf(currents, windings, fieldHarmonics)
