import { shortPeak_A } from '../../converter/short.ts'
import { fluxDensity_T } from '../../converter/turns.ts'
import { coreReluctance, rootFluxRatio } from '../../magnetics/gap/index.ts'
import type { Build } from '../build.ts'
import type { PartsUsed } from '../design.ts'
import type { Coil } from './coil.ts'
import type { CoreFacts } from './core-facts.ts'
import type { Estimate } from './estimate.ts'
import type { Gap } from './gap.ts'
import { trackAtPrimary_H } from './secondary-path.ts'
import type { Turns } from './turns.ts'

/**
 * Flux that a wound transformer sees at its worst, T: at the greatest inductance and current limit with what the delay
 * adds at the highest input, or at the current that a short climbs to.
 */
export function greatestFlux_T(
  { transformer }: Build,
  { switcher, material, rectifier }: PartsUsed,
  core: CoreFacts,
  turns: Turns,
  gap: Gap,
  coil: Coil,
  e: Estimate,
): number {
  const L = gap.inductance_H.maximum
  const limitPeak_A = switcher.currentLimit_A.maximum + (e.bulkMaximum_V * switcher.currentLimitDelay_s) / L
  const peak_A = shortPeak_A({
    bulk_V: e.bulkMaximum_V,
    minimumOnTime_s: switcher.minimumOnTime_s,
    frequency_Hz: e.frequency_Hz,
    turnsRatio: turns.turnsRatio,
    rectifierDrop_V: rectifier.drop_V,
    secondaryResistance_ohm: coil.secondary.dcResistance_ohm + rectifier.slope_ohm,
    inductance_H: L,
    leakage_H: coil.leakage_H + trackAtPrimary_H(turns.turnsRatio),
    limitPeak_A,
    skipsPulses: switcher.skipsPulsesWhenShorted === true,
  })
  const { effective, post } = core.geometry
  const core_per_H = coreReluctance(effective.C1_per_m, material.initialPermeability.typical)
  const root = rootFluxRatio(core.gap[transformer.gapPlace], core_per_H, gap.gap_m)
  const area_m2 = Math.min(effective.minimumArea_m2, post.area_m2 / root)
  return fluxDensity_T(L, peak_A, turns.primary, area_m2)
}
