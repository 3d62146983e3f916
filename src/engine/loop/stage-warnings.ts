import type { PowerStage } from './power-stage.ts'
import { roots } from './roots.ts'

export interface StageWarning {
  readonly code: 'subharmonic' | 'near-subharmonic' | 'unstable-alone' | 'right-half-plane-zero'
  readonly message: string
}

/**
 * What a power stage does by itself that a loop has to live with. Subharmonic oscillation of peak-current control in
 * continuous mode: Q = 1/(pi ((1 + mc/m1) D' - 1/2)) of the pole pair at half the switching frequency is negative
 * (Ridley 1991, from memory); a Q above 4 rings long after every disturbance (common practice, no source).
 */
export function stageWarnings(stage: PowerStage): StageWarning[] {
  const warnings: StageWarning[] = []
  const { features, point } = stage
  const f = 1 / stage.equations.samplePeriod_s
  const q = features.halfFrequencyQ
  if (q !== null && q < 0)
    warnings.push({
      code: 'subharmonic',
      message: `duty ${point.duty.toFixed(2)} in continuous mode with too little slope compensation: wide and narrow pulses in turn at ${Math.round(f / 2000)} kHz, heard as a hiss; more slope compensation, less inductance or a higher lowest input cures it`,
    })
  else if (q !== null && q > 4)
    warnings.push({
      code: 'near-subharmonic',
      message: `close to subharmonic oscillation (Q ${q.toFixed(1)} at half the switching frequency)`,
    })
  const r = roots(stage.den)
  if (r.ok && (q === null || q > 0) && r.re.some((x) => x > 0))
    warnings.push({
      code: 'unstable-alone',
      message: 'with this load the power stage drifts away by itself; only a closed loop holds it',
    })
  if (features.rightHalfPlaneZero_Hz < 0.1 * f)
    warnings.push({
      code: 'right-half-plane-zero',
      message: `right-half-plane zero at ${(features.rightHalfPlaneZero_Hz / 1000).toPrecision(2)} kHz: keep the crossover below a third of it`,
    })
  return warnings
}
