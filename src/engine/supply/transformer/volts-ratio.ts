import type { TransformerDesign } from '../design.ts'

/** Windings that a wave on the primary is read on. */
export const drivenWindings = ['secondary', 'bias'] as const
export type DrivenWinding = (typeof drivenWindings)[number]

/** Accuracy of two voltages read with one instrument, where its maker's figure was not noted. */
export const usualRatioAccuracy = 0.02

type Turns = Pick<TransformerDesign, 'primaryTurns' | 'secondaryTurns' | 'biasTurns'>

export const turnsOf = (t: Turns, winding: DrivenWinding): number =>
  winding === 'secondary' ? t.secondaryTurns : t.biasTurns

/**
 * Part by which an open winding reads less than its turns at most: with the primary driven V2 / V1 = (N2 / N1) Lm / L11,
 * and what of L11 is leakage lies between none and all of what is read with the secondary shorted.
 */
export const leakageShare = (leakage_H: number, inductance_H: number): number =>
  Math.min(0.5, leakage_H / inductance_H)

/** Where primary volts over volts of a winding lie when every turn is there, all of it open. */
export function voltsRatioBand(
  t: Turns,
  winding: DrivenWinding,
  share: number,
  accuracy = usualRatioAccuracy,
): { readonly typical: number; readonly low: number; readonly high: number } {
  const turns = t.primaryTurns / turnsOf(t, winding)
  return {
    typical: turns * (1 + share / 2),
    low: turns * (1 - accuracy),
    high: turns * (1 + share) * (1 + accuracy),
  }
}
