import { aidingInductance_H, opposingInductance_H } from '../../converter/turns.ts'
import type { Design } from '../design.ts'

/** Band of a winding's resistance from the wire's diameter and the length of hand-laid turns. Common practice, no source. */
export const resistanceBand = 0.1

/** A value less and more a fraction of itself. */
export const around = (value: number, band: number): [low: number, high: number] => [
  value * (1 - band),
  value * (1 + band),
]

/** Where a reading of the finished transformer lies when it is wound to plan; every paper and card takes it from here. */
export interface PlannedBand {
  readonly typical: number
  readonly low: number
  readonly high: number
}

/** Planned bands of one transformer: inductances by gap and core, leakage by hand winding, resistances by wire. */
export function plannedBands({ transformer: t }: Design) {
  const { typical, minimum, maximum } = t.plannedInductance_H
  const inductance = (share: number): PlannedBand => ({
    typical: typical * share,
    low: minimum * share,
    high: maximum * share,
  })
  const resistance = (value: number): PlannedBand => {
    const [low, high] = around(value, resistanceBand)
    return { typical: value, low, high }
  }
  const leakage = t.plannedLeakage_H
  return {
    inductance: inductance(1),
    leakage: { typical: leakage.typical, low: leakage.minimum, high: leakage.maximum },
    aiding: inductance(aidingInductance_H(1, t.turnsRatio)),
    opposing: inductance(opposingInductance_H(1, t.turnsRatio)),
    secondary: inductance(1 / t.turnsRatio ** 2),
    bias: inductance((t.biasTurns / t.primaryTurns) ** 2),
    primaryResistance: resistance(t.coil.primary.dcResistance_ohm),
    secondaryResistance: resistance(t.coil.secondary.dcResistance_ohm),
    biasResistance: resistance(t.coil.bias.dcResistance_ohm),
  } satisfies Record<string, PlannedBand>
}
