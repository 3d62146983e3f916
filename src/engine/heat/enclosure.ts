import { requireBetween } from '../quantity/require.ts'

export type CoolingKind = 'open' | 'case-vented' | 'case-closed' | 'fan'

/**
 * Factor on every surface-to-air resistance. Free air counts as 1. Vented 1.15, closed 1.3, fan 0.5: common practice,
 * no source; a real case needs a reading.
 */
export const surfaceFactor: Readonly<Record<CoolingKind, number>> = {
  open: 1,
  'case-vented': 1.15,
  'case-closed': 1.3,
  fan: 0.5,
}

/**
 * Conductance from the air inside a case to the room, W/K: h A with h = 10 W/(m2 K), convection and radiation together
 * (the round figure for a painted or plastic box in still air, common practice, no source); doubled by vents.
 */
export function insideConductance(kind: 'case-vented' | 'case-closed', surface_m2: number): number {
  requireBetween('surface_m2', surface_m2, 1e-4, 10, 'm2')
  return (kind === 'case-vented' ? 2 : 1) * 10 * surface_m2
}

/** Rise of the air inside a case over the room, K: loss over conductance; none on an open bench or with a fan. */
export function insideRise(kind: CoolingKind, loss_W: number, surface_m2: number): number {
  requireBetween('loss_W', loss_W, 0, 1e4, 'W')
  return kind === 'open' || kind === 'fan' ? 0 : loss_W / insideConductance(kind, surface_m2)
}
