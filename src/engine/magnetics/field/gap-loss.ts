import type { StackLayout } from '../stack/index.ts'
import { harmonicLoss_W } from './copper-loss.ts'
import { spreadGap } from './gap-placement.ts'
import { stackField, stackResistances } from './stack-field.ts'
import type { WallGap } from './types.ts'
import type { Harmonics } from './waveform-harmonics.ts'

export interface GapLoss {
  /** Alternating copper loss as built, by layer (shields last), and in all. */
  readonly layers_W: Float64Array
  readonly asBuilt_W: number
  /** The same with the gap in twenty parts along the post: what an evenly distributed gap would leave. */
  readonly evenGap_W: number
  /** The same with the gap in three parts. */
  readonly spreadGap_W: number
}

export type GapLossResult =
  | { readonly ok: true; readonly loss: GapLoss }
  | { readonly ok: false; readonly message: string }

/**
 * What the field of the gap costs in copper: alternating loss as built against the same winding with the gap spread.
 * The difference is what moving turns away from the gap, spreading it, or thinner strands can win back at most.
 */
export const gapLoss = (
  layout: StackLayout,
  gaps: readonly WallGap[],
  currents: readonly Harmonics[],
  frequency_Hz: number,
  temperature_C: number,
): GapLossResult => {
  const harmonics = currents[0]!.real.length
  const frequencies_Hz = Array.from({ length: harmonics }, (_, n) => (n + 1) * frequency_Hz)
  const share = gaps.reduce((sum, gap) => sum + gap.share, 0)
  const length_m = gaps.reduce((sum, gap) => sum + gap.length_m, 0)
  const spread = (parts: number): WallGap[] => spreadGap(length_m, share, parts, layout.input.core.height_m)
  const plans = [gaps, spread(20), spread(3)]
  const totals: number[] = []
  let layers_W = new Float64Array(0)
  for (const plan of plans) {
    const solved = stackResistances(stackField(layout, plan), frequencies_Hz, temperature_C)
    if (!solved.ok) return solved
    const layers = solved.layers[0]!.map((_, l) =>
      solved.layers.reduce((sum, byLayer, n) => sum + harmonicLoss_W(byLayer[l]!, currents, n), 0),
    )
    if (plan === gaps) layers_W = Float64Array.from(layers)
    totals.push(layers.reduce((sum, value) => sum + value, 0))
  }
  return {
    ok: true,
    loss: { layers_W, asBuilt_W: totals[0]!, evenGap_W: totals[1]!, spreadGap_W: totals[2]! },
  }
}
