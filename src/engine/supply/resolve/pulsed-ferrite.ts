import { type SaturationCurve, saturationFlux } from '../../magnetics/material/index.ts'
import type { Measured } from '../bench-log.ts'
import type { FerriteFacts } from './ferrite.ts'

/** Temperature of the core at the bench, at which a pulse is taken, °C. */
export const pulsed_C = 25

/** What a pulse on the primary sees of the core. */
export interface PulsedCoil {
  readonly turns: number
  /** Least section, where the core saturates. */
  readonly area_m2: number
  readonly inductance_H: number
}

/** Current at which the core saturates at a flux, A: B N A / L, the crossing of both slopes of a pulse. */
export const saturationCurrent_A = (flux_T: number, { turns, area_m2, inductance_H }: PulsedCoil): number =>
  (flux_T * turns * area_m2) / inductance_H

/** Flux at which the core bent, T: L I / (N A). */
export const bendFlux_T = (current_A: number, { turns, area_m2, inductance_H }: PulsedCoil): number =>
  (inductance_H * current_A) / (turns * area_m2)

/** A curve of which only a share of the flux is reached, at every temperature. */
const shareOf = (curve: SaturationCurve, share: number): SaturationCurve => ({
  ...curve,
  knees: curve.knees.map((knee) => ({ ...knee, polarisation_T: share * knee.polarisation_T })),
  tableFlux_T: curve.tableFlux_T.map((flux_T) => share * flux_T),
})

/**
 * Ferrite as a saturation pulse showed it: where the core bent below the flux of its data, the whole curve is lowered in
 * that proportion, hot and cold. A bend above it raises nothing: it is read by eye, and saturation is judged carefully.
 */
export function pulsedFerrite(
  facts: FerriteFacts,
  coil: PulsedCoil,
  reading: Measured | null | undefined,
): FerriteFacts {
  if (!reading || reading.value <= 0) return facts
  const share = bendFlux_T(reading.value, coil) / saturationFlux(facts.curve, pulsed_C)
  return share < 1 ? { ...facts, curve: shareOf(facts.curve, share) } : facts
}
