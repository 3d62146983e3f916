import { waveformLoss } from '../../magnetics/material/index.ts'
import type { Design } from '../design.ts'
import type { Operation } from '../evaluate/operate.ts'
import { type Result, succeed } from '../result.ts'

/** Flux of the core over one period, and the heat that it makes. */
export interface CoreHeat {
  readonly total_W: number
  readonly density_W_per_m3: number
  readonly time_s: readonly number[]
  readonly flux_T: readonly number[]
  /** Mean of the flux over the period: the bias under the swing, which the loss equation does not know. */
  readonly bias_T: number
}

/**
 * Core loss of the true flux waveform over the effective area: up in the on-time, down while the rectifier conducts, at
 * rest in discontinuous mode, by the improved generalised Steinmetz equation. Errors: a waveform that does not close.
 */
export function coreHeat(
  d: Design,
  o: Operation,
  frequency_Hz: number,
  temperature_C: number,
): Result<CoreHeat> {
  const { mean, losses, inductance_H } = o
  const { area_m2, volume_m3 } = d.core.geometry.effective
  const perAmp_T = inductance_H / (d.transformer.primaryTurns * area_m2)
  const period_s = 1 / frequency_Hz
  const on_s = mean.duty * period_s
  const off_s = on_s + mean.secondaryDuty * period_s
  const low_T = perAmp_T * mean.valley_A
  const high_T = perAmp_T * mean.peak_A
  const rests = off_s < period_s * (1 - 1e-9)
  const time_s = rests ? [0, on_s, off_s, period_s] : [0, on_s, period_s]
  const flux_T = rests ? [low_T, high_T, low_T, low_T] : [low_T, high_T, low_T]
  const density = waveformLoss(d.ferrite.loss, time_s, flux_T, temperature_C)
  if (!density.ok) return density
  let area = 0
  for (let i = 1; i < time_s.length; i++)
    area += ((flux_T[i]! + flux_T[i - 1]!) / 2) * (time_s[i]! - time_s[i - 1]!)
  return succeed({
    total_W: losses.share * density.value * volume_m3,
    density_W_per_m3: losses.share * density.value,
    time_s,
    flux_T,
    bias_T: area / period_s,
  })
}
