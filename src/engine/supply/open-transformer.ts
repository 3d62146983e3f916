import type { TransformerBuild } from './build.ts'

/** A transformer with every choice left to the tool: a split primary in insulated wire, three layers of tape as barrier. */
export const openTransformer: TransformerBuild = {
  reflectedVoltage_V: null,
  rippleRatio: null,
  primaryTurns: null,
  secondaryTurns: null,
  biasTurns: null,
  biasVoltage_V: null,
  gapPlace: 'post',
  gap_m: null,
  primaryInHand: null,
  secondaryInHand: null,
  biasInHand: null,
  splitPrimary: true,
  insulation: 'triple-insulated',
  margin_m: null,
  tapeBarrier: 3,
  tapeLayer: 1,
  tapeOuter: 2,
  stack: null,
}
