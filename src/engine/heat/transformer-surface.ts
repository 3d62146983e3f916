import { requireBetween } from '../quantity/require.ts'

/**
 * Temperature rise of a wound core in still air from its loss and outer surface:
 * dT = (P[mW] / A[cm2])^0.833, K.
 *
 * Valid for natural cooling at ordinary ambients, rises of about 20 to 100 K, +-20 %. Source: the surface formula that
 * core makers print for wound cores (for instance Magnetics powder core catalogue, "Temperature rise"); exponent from
 * memory.
 */
export function surfaceRise(loss_W: number, surface_m2: number): number {
  requireBetween('loss_W', loss_W, 0, 1e4, 'W')
  requireBetween('surface_m2', surface_m2, 1e-6, 1, 'm2')
  return ((loss_W * 1000) / (surface_m2 * 1e4)) ** 0.833
}

/** Loss that a surface carries off at a rise: the same relation turned round, W. */
export function surfaceLoss(rise_K: number, surface_m2: number): number {
  requireBetween('rise_K', rise_K, 0, 400, 'K')
  return (rise_K ** (1 / 0.833) * surface_m2 * 1e4) / 1000
}

/** Resistance from surface to air at a loss: rise over loss, K/W (at 1 W where there is no loss). */
export function surfaceResistance(loss_W: number, surface_m2: number): number {
  const loss = loss_W > 0 ? loss_W : 1
  return surfaceRise(loss, surface_m2) / loss
}
