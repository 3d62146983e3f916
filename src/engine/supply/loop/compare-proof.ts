import { loopGain, type Rational, responseAt } from '../../loop/index.ts'
import type { Corner } from './corners.ts'
import type { CornerWithMargins } from './loop-of.ts'
import type { ProofPoint } from './prove.ts'

/** How far a proof lies from the computed loop. */
export interface ProofComparison {
  /** Largest distances up to a tenth of the switching frequency. */
  readonly gain_dB: number
  readonly phase_deg: number
  /** Crossover and phase margin of the switched circuit, by its distance from the model there; null without one. */
  readonly crossing: { readonly frequency_Hz: number; readonly phaseMargin_deg: number } | null
}

const turned = (degrees: number): number => ((((degrees + 180) % 360) + 360) % 360) - 180

/** Compares points of the switched circuit with the computed loop at the same corner. */
export function compareProof(corner: CornerWithMargins, points: readonly ProofPoint[]): ProofComparison {
  const T = loopGain(corner.small, corner.path)
  const off = points.map((p) => {
    const model = responseAt(T, p.frequency_Hz)
    return {
      frequency_Hz: p.frequency_Hz,
      gain_dB: p.gain_dB - model.gain_dB,
      phase_deg: turned(p.phase_deg - model.phase_deg),
    }
  })
  const near = off.filter((p) => p.frequency_Hz <= corner.stage.frequency_Hz / 10)
  return {
    gain_dB: Math.max(0, ...near.map((p) => Math.abs(p.gain_dB))),
    phase_deg: Math.max(0, ...near.map((p) => Math.abs(p.phase_deg))),
    crossing: crossing(corner, T, off),
  }
}

/** The model's crossover moved by what the circuit's gain differs there, along the model's slope. */
function crossing(
  corner: CornerWithMargins,
  T: Rational,
  off: readonly ProofPoint[],
): ProofComparison['crossing'] {
  const { margins } = corner
  if (!margins.ok || off.length < 2) return null
  const f = margins.crossover_Hz
  const k = Math.max(
    1,
    Math.min(
      off.length - 1,
      off.findIndex((p) => p.frequency_Hz >= f),
    ),
  )
  const [a, b] = [off[k - 1]!, off[k]!]
  const share = Math.log(f / a.frequency_Hz) / Math.log(b.frequency_Hz / a.frequency_Hz)
  const gain = a.gain_dB + share * (b.gain_dB - a.gain_dB)
  const phase = a.phase_deg + share * (b.phase_deg - a.phase_deg)
  const slope_dB = (responseAt(T, f * 1.02).gain_dB - responseAt(T, f / 1.02).gain_dB) / (2 * Math.log(1.02))
  const frequency_Hz = f * Math.exp(-gain / slope_dB)
  const moved = turned(responseAt(T, frequency_Hz).phase_deg + phase + 180)
  return { frequency_Hz, phaseMargin_deg: moved }
}

/** Frequencies that a proof covers: from a decade below the crossover to a fifth of the switching frequency. */
export function proofRange({ stage, margins }: Corner & Pick<CornerWithMargins, 'margins'>): {
  readonly from_Hz: number
  readonly to_Hz: number
} {
  const crossover_Hz = margins.ok ? margins.crossover_Hz : stage.frequency_Hz / 100
  return {
    from_Hz: Math.max(stage.frequency_Hz / 1500, Math.min(crossover_Hz / 10, stage.frequency_Hz / 500)),
    to_Hz: stage.frequency_Hz / 5,
  }
}
