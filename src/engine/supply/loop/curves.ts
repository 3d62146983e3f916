import { loopGain } from '../../loop/index.ts'
import { evaluate } from '../../loop/polynomial.ts'
import type { Corner } from './corners.ts'

/** Gain and phase of a loop over frequency. Phase is followed without jumps, from between -330 and 30 degrees. */
export interface LoopCurve {
  readonly gain_dB: Float64Array
  readonly phase_deg: Float64Array
}

/** Least and greatest of many curves at each frequency. */
export interface LoopBand {
  readonly gainLow_dB: Float64Array
  readonly gainHigh_dB: Float64Array
  readonly phaseLow_deg: Float64Array
  readonly phaseHigh_deg: Float64Array
}

/** Frequencies in equal ratios from `from_Hz` to `to_Hz`. */
export const frequenciesBetween = (from_Hz: number, to_Hz: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, k) => from_Hz * (to_Hz / from_Hz) ** (k / (count - 1)))

export function curveOf(
  { small, path }: Pick<Corner, 'small' | 'path'>,
  frequency_Hz: Float64Array,
): LoopCurve {
  const T = loopGain(small, path)
  const z = new Float64Array(2)
  const gain_dB = new Float64Array(frequency_Hz.length)
  const phase_deg = new Float64Array(frequency_Hz.length)
  let before = -150
  for (let k = 0; k < frequency_Hz.length; k++) {
    evaluate(T, frequency_Hz[k]!, z)
    gain_dB[k] = 10 * Math.log10(z[0]! * z[0]! + z[1]! * z[1]!)
    const phase = (Math.atan2(z[1]!, z[0]!) * 180) / Math.PI
    before = phase + 360 * Math.round((before - phase) / 360)
    phase_deg[k] = before
  }
  return { gain_dB, phase_deg }
}

export function bandOf(corners: readonly Corner[], frequency_Hz: Float64Array): LoopBand {
  const n = frequency_Hz.length
  const band = {
    gainLow_dB: new Float64Array(n).fill(Number.POSITIVE_INFINITY),
    gainHigh_dB: new Float64Array(n).fill(Number.NEGATIVE_INFINITY),
    phaseLow_deg: new Float64Array(n).fill(Number.POSITIVE_INFINITY),
    phaseHigh_deg: new Float64Array(n).fill(Number.NEGATIVE_INFINITY),
  }
  for (const corner of corners) {
    const { gain_dB, phase_deg } = curveOf(corner, frequency_Hz)
    for (let k = 0; k < n; k++) {
      band.gainLow_dB[k] = Math.min(band.gainLow_dB[k]!, gain_dB[k]!)
      band.gainHigh_dB[k] = Math.max(band.gainHigh_dB[k]!, gain_dB[k]!)
      band.phaseLow_deg[k] = Math.min(band.phaseLow_deg[k]!, phase_deg[k]!)
      band.phaseHigh_deg[k] = Math.max(band.phaseHigh_deg[k]!, phase_deg[k]!)
    }
  }
  return band
}
