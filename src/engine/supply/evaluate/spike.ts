import { type Handover, handoverRing_A, spikeCharge_V } from '../../converter/handover.ts'
import { handing_H, secondarySide } from './handing.ts'
import type { Plant } from './plant.ts'

/** What of a solved condition tells how the leakage hands its current over. */
interface Solved {
  readonly leakage_H: number
  readonly reflected_V: number
  readonly mean: { readonly peak_A: number; readonly rate_Hz: number }
  readonly losses: { readonly clamp_V: number; readonly handedShare: number }
}

const handoverOf = (p: Plant, { leakage_H, reflected_V, mean, losses }: Solved): Handover => ({
  leakage_H: handing_H(p, leakage_H),
  drain_F: p.drainCapacitance_F,
  handed_A: losses.handedShare * mean.peak_A,
  over_V: losses.clamp_V - reflected_V,
})

/** What leakage and drain capacitance ring on top of the secondary's current, A. */
export const secondaryRing_A = (p: Plant, solved: Solved): number =>
  p.turnsRatio * handoverRing_A(handoverOf(p, solved), p.leakageQuality)

/** Bias voltage with what the spike adds to the ratio of turns, V. */
export const spikedBias_V = (p: Plant, solved: Solved): number =>
  p.biasPrimaryRatio * solved.reflected_V -
  p.biasDrop_V +
  spikeCharge_V(
    handoverOf(p, solved),
    {
      ratio: p.biasPrimaryRatio,
      share: secondarySide(p, solved.leakage_H),
      leakage_H: solved.leakage_H * p.leakageStar.biasShare * p.biasPrimaryRatio ** 2,
    },
    p.chipSupply_A,
    solved.mean.rate_Hz,
  )
