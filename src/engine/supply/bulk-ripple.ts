import { coolAllowance } from '../mains/capacitor-life.ts'
import type { Design } from './design.ts'
import type { Readings } from './reading.ts'

/** Ripple current, at twice the mains frequency, that one bulk capacitor may carry in the air inside the case, A. */
export const bulkRippleAllowed_A = (
  { parts: { bulkCapacitor: c } }: Pick<Design, 'parts'>,
  r: Pick<Readings, 'insideAir_C'>,
): number => c.ripple100Hz_A * coolAllowance(c.temperature_C, r.insideAir_C)
