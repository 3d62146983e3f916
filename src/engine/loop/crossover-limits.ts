import type { LoopCorner } from './corners.ts'

export interface CrossoverLimit {
  readonly reason: 'right-half-plane zero' | 'second filter stage' | 'switching frequency'
  readonly limit_Hz: number
}

/**
 * Limits of a sensible crossover over all corners: a third of the right-half-plane zero, a third of the second stage's
 * resonance when the divider senses after the choke, a tenth of the switching frequency. Common practice, no source.
 */
export function crossoverLimits(corners: readonly LoopCorner[]): CrossoverLimit[] {
  let zero = Number.POSITIVE_INFINITY
  let second = Number.POSITIVE_INFINITY
  let switching = Number.POSITIVE_INFINITY
  for (const { stage, path } of corners) {
    zero = Math.min(zero, stage.features.rightHalfPlaneZero_Hz / 3)
    switching = Math.min(switching, 0.1 / stage.equations.samplePeriod_s)
    if (path.senseTap === 'load' && stage.features.secondStage_Hz !== null)
      second = Math.min(second, stage.features.secondStage_Hz / 3)
  }
  const limits: CrossoverLimit[] = [
    { reason: 'right-half-plane zero', limit_Hz: zero },
    { reason: 'second filter stage', limit_Hz: second },
    { reason: 'switching frequency', limit_Hz: switching },
  ]
  return limits.filter((l) => Number.isFinite(l.limit_Hz)).sort((a, b) => a.limit_Hz - b.limit_Hz)
}
