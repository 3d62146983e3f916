import { aidingInductance_H, opposingInductance_H } from '../../converter/turns.ts'
import { saturationFlux } from '../../magnetics/material/index.ts'
import type { Design } from '../design.ts'
import { ferriteFacts } from '../resolve/ferrite.ts'
import { pulsed_C, saturationCurrent_A } from '../resolve/pulsed-ferrite.ts'
import { leakageShare, voltsRatioBand } from './volts-ratio.ts'

/** Band of a winding's resistance from the wire's diameter and the length of hand-laid turns. Common practice, no source. */
export const resistanceBand = 0.1

/** A value less and more a fraction of itself. */
export const around = (value: number, band: number): [low: number, high: number] => [
  value * (1 - band),
  value * (1 + band),
]

/**
 * How far the bend of a pulse may lie from B N A / L of the plan: the gap with its inductance, what the makers' saturation
 * flux leaves open, and an eye on a curve. Common practice, no source.
 */
export const bendBand = 0.2

/** Where a reading of the finished transformer lies when it is wound to plan; every paper and card takes it from here. */
export interface PlannedBand {
  readonly typical: number
  readonly low: number
  readonly high: number
}

/** Planned bands of one transformer: inductances by gap and core, leakage by hand winding, resistances by wire. */
export function plannedBands({ transformer: t, core, parts }: Design) {
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
  const ferrite = ferriteFacts(parts.material)
  const bend_A = saturationCurrent_A(ferrite.ok ? saturationFlux(ferrite.value.curve, pulsed_C) : 0, {
    turns: t.primaryTurns,
    area_m2: core.geometry.effective.minimumArea_m2,
    inductance_H: typical,
  })
  const [bendLow_A, bendHigh_A] = around(bend_A, bendBand)
  const apart = leakageShare(leakage.typical, typical)
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
    saturation: { typical: bend_A, low: bendLow_A, high: bendHigh_A },
    secondaryVolts: voltsRatioBand(t, 'secondary', apart),
    biasVolts: voltsRatioBand(t, 'bias', apart),
  } satisfies Record<string, PlannedBand>
}
