import { requireBetween } from '../quantity/require.ts'

const exponent = 0.826
const rise_K_at_1W_per_cm2 = 450

/**
 * Temperature rise of a wound core in still air from its loss and the outer surface that sees air:
 * dT = 450 (P/A)^0.826, K, with P/A in W/cm2.
 *
 * Valid for natural convection and radiation at ordinary ambients, rises of about 15 to 100 K; +-20 %. Leave the face on
 * the board out of the surface. Source: McLyman, Transformer and Inductor Design Handbook, ch. 6 (from memory).
 */
export function surfaceRise(loss_W: number, surface_m2: number): number {
  requireBetween('loss_W', loss_W, 0, 1e4, 'W')
  requireBetween('surface_m2', surface_m2, 1e-6, 1, 'm2')
  return rise_K_at_1W_per_cm2 * (loss_W / (surface_m2 * 1e4)) ** exponent
}

/** Loss that a surface carries off at a rise: the same relation turned round, W. */
export function surfaceLoss(rise_K: number, surface_m2: number): number {
  requireBetween('rise_K', rise_K, 0, 400, 'K')
  return (rise_K / rise_K_at_1W_per_cm2) ** (1 / exponent) * surface_m2 * 1e4
}

/** Resistance from surface to air at a loss: rise over loss, K/W (at 1 W where there is no loss). */
export function surfaceResistance(loss_W: number, surface_m2: number): number {
  const loss = loss_W > 0 ? loss_W : 1
  return surfaceRise(loss, surface_m2) / loss
}
