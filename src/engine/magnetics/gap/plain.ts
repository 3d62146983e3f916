import { mu0 } from './model.ts'

/**
 * Gap arithmetic without fringing, as done on paper. It overstates the drop over the gap by 4 to 50 %, so it is a
 * witness for a design, not its basis.
 */

/** Gap in the post, m: mu0 Ae (1/AL - 1/AL0). Negative when AL is above that of the ungapped core. */
export const plainPostGap = (area_m2: number, factor_H: number, ungappedFactor_H: number) =>
  mu0 * area_m2 * (1 / factor_H - 1 / ungappedFactor_H)

/** Spacer under all legs with the drop of a cut in the post: lg / (1 + Apost/Aouter). */
export const plainSpacer = (postGap_m: number, outerToPostRatio: number) =>
  postGap_m / (1 + 1 / outerToPostRatio)
