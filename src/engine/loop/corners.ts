import type { FeedbackPath } from './feedback-path.ts'
import { loopGain } from './loop-gain.ts'
import { type Margins, type MarginsFailure, margins } from './margins.ts'
import type { PowerStage } from './power-stage.ts'

/** One mix of mains, load, temperature and tolerances. */
export interface LoopCorner {
  readonly name: string
  readonly stage: PowerStage
  readonly path: FeedbackPath
}

export interface CornerMargins {
  readonly name: string
  readonly margins: Margins | MarginsFailure
}

export interface WorstMargins {
  readonly corners: readonly CornerMargins[]
  /** Corner with the least phase margin, and with the least gain margin; null when no corner crosses over. */
  readonly leastPhase: { readonly name: string; readonly phaseMargin_deg: number } | null
  readonly leastGain: { readonly name: string; readonly gainMargin_dB: number } | null
  readonly crossoverLow_Hz: number
  readonly crossoverHigh_Hz: number
}

/** Margins at every corner, from 1 Hz to half the switching frequency, with the worst ones named. */
export function cornerMargins(corners: readonly LoopCorner[]): WorstMargins {
  let leastPhase: WorstMargins['leastPhase'] = null
  let leastGain: WorstMargins['leastGain'] = null
  let low = Number.POSITIVE_INFINITY
  let high = 0
  const list = corners.map(({ name, stage, path }): CornerMargins => {
    const m = margins(loopGain(stage, path), 1, 0.5 / stage.equations.samplePeriod_s)
    if (m.ok) {
      if (leastPhase === null || m.phaseMargin_deg < leastPhase.phaseMargin_deg)
        leastPhase = { name, phaseMargin_deg: m.phaseMargin_deg }
      if (leastGain === null || m.gainMargin_dB < leastGain.gainMargin_dB)
        leastGain = { name, gainMargin_dB: m.gainMargin_dB }
      low = Math.min(low, m.crossover_Hz)
      high = Math.max(high, m.crossover_Hz)
    }
    return { name, margins: m }
  })
  return { corners: list, leastPhase, leastGain, crossoverLow_Hz: high > 0 ? low : 0, crossoverHigh_Hz: high }
}
