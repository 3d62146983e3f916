import { millimetres } from '../core/result.ts'
import type { GapPlace } from './model.ts'

export interface GapWarning {
  readonly code: 'impractical' | 'hard-to-keep' | 'film-heat' | 'film-thick'
  readonly message: string
}

/**
 * What to mind about a gap. Below 0.05 mm dust and glue decide, below 0.1 mm the tolerance is wide (trade texts on
 * gapped ferrite; common practice). A spacer film must stand about 100 °C and does not give under the clamp.
 */
export function gapWarnings(
  place: GapPlace,
  gap_m: number,
  film?: { readonly temperature_C: number },
): GapWarning[] {
  const warnings: GapWarning[] = []
  const what = place === 'post' ? 'gap' : 'spacer'
  if (gap_m > 0 && gap_m < 50e-6)
    warnings.push({
      code: 'impractical',
      message: `a ${what} of ${millimetres(gap_m)} is below 0.05 mm: dust and glue decide the inductance`,
    })
  else if (gap_m > 0 && gap_m < 100e-6)
    warnings.push({
      code: 'hard-to-keep',
      message: `a ${what} of ${millimetres(gap_m)} is below 0.1 mm: expect a wide tolerance, adjust to the measured inductance`,
    })
  if (place === 'all-legs' && film && film.temperature_C < 100)
    warnings.push({
      code: 'film-heat',
      message: `the film stands ${film.temperature_C} °C, but a spacer in a warm core must stand about 100 °C`,
    })
  if (place === 'all-legs' && gap_m > 0.5e-3)
    warnings.push({
      code: 'film-thick',
      message: `a spacer of ${millimetres(gap_m)} leaks field outside the core; a cut in the post leaks less`,
    })
  return warnings
}
