import { inductanceForRipple_H, turnsForFlux } from '../../converter/turns.ts'
import type { Build, WindingName } from '../build.ts'
import type { PartsUsed } from '../design.ts'
import type { Need } from '../need.ts'
import type { CoreFacts } from './core-facts.ts'
import type { Estimate } from './estimate.ts'

/** Turns, and the inductance that they are meant to have. */
export interface Turns {
  readonly aimedReflectedVoltage_V: number
  readonly rippleRatio: number
  readonly primary: number
  readonly secondary: number
  readonly bias: number
  readonly turnsRatio: number
  readonly reflectedVoltage_V: number
  readonly inductance_H: number
  /** Peak primary current at the valley and full load, by the estimate. */
  readonly peak_A: number
}

/** Usual reflected voltage: 60 V for 100 to 120 V mains, 120 V for 230 V alone, 100 V between. Common practice, no source. */
const usualReflected_V = ({ bulkMaximum_V, valley_V }: Estimate): number =>
  bulkMaximum_V < 230 ? 60 : valley_V > 190 ? 120 : 100
/**
 * Ripple-to-peak ratio where the current limit leaves room for it: nearly discontinuous at 230 V, where currents are
 * small and a small core is welcome; less from low mains, where copper and switch are hot already.
 */
const usualRipple = ({ valley_V }: Estimate): number => (valley_V > 190 ? 0.95 : 0.75)
/** Peak current that is left free below the least current limit. */
const limitUse = 0.83
/** Share of the hot saturation flux that the core is wound for at the greatest current limit. */
const saturationUse = 0.9
/** At greatest limit and inductance; about 0.3 T at typical ones, as the trade designs, T. */
const greatestFlux_T = 0.35

/**
 * Chooses what the builder left open of reflected voltage, ripple and turns, and rounds turns to whole ones; turns that an
 * order of layers lays are taken from there, and a secondary that is left open with its primary gets `leastSecondary`
 * turns at least.
 */
export function chooseTurns(
  need: Need,
  build: Build,
  parts: PartsUsed,
  core: CoreFacts,
  saturation_T: number,
  e: Estimate,
  leastSecondary = 1,
): Turns {
  const t = build.transformer
  const { switcher } = parts
  const fixedPrimary = t.primaryTurns
  const fixedSecondary = t.secondaryTurns
  const out_V = need.output_V + e.rectifierDrop_V
  const aimed =
    t.reflectedVoltage_V ??
    (fixedPrimary !== null && fixedSecondary !== null
      ? (out_V * fixedPrimary) / fixedSecondary
      : usualReflected_V(e))
  const on_V = Math.max(10, e.valley_V - 4)
  const average_A = e.stage_W / e.valley_V
  const duty = aimed / (aimed + on_V)
  const most_A = limitUse * switcher.currentLimit_A.minimum
  const roomy = 2 * (1 - average_A / (duty * most_A))
  const rippleRatio = t.rippleRatio ?? Math.min(usualRipple(e), Math.max(0.25, roomy))
  const wanted_H = inductanceForRipple_H(on_V, aimed, average_A, e.frequency_Hz, rippleRatio)

  const limitPeak_A =
    switcher.currentLimit_A.maximum + (e.bulkMaximum_V * switcher.currentLimitDelay_s) / wanted_H
  const flux_T = Math.min(greatestFlux_T, saturationUse * saturation_T)
  const leastPrimary = turnsForFlux(
    1.08 * wanted_H,
    limitPeak_A,
    flux_T,
    core.geometry.effective.minimumArea_m2,
  )
  const secondary =
    fixedSecondary ??
    laid(t, 'secondary') ??
    (fixedPrimary !== null
      ? Math.max(1, Math.round((fixedPrimary * out_V) / aimed))
      : Math.max(leastSecondary, Math.min(500, Math.ceil((0.97 * leastPrimary * out_V) / aimed - 0.02))))
  const primary =
    fixedPrimary ?? laid(t, 'primary') ?? Math.max(1, Math.min(2000, Math.round((secondary * aimed) / out_V)))
  const turnsRatio = primary / secondary
  const reflected = out_V * turnsRatio
  const inductance_H = inductanceForRipple_H(on_V, reflected, average_A, e.frequency_Hz, rippleRatio)

  const bias =
    t.biasTurns ??
    laid(t, 'bias') ??
    Math.max(1, Math.min(500, usualBiasTurns(need, build, parts, secondary / out_V)))
  const realDuty = reflected / (reflected + on_V)
  return {
    aimedReflectedVoltage_V: aimed,
    rippleRatio,
    primary,
    secondary,
    bias,
    turnsRatio,
    reflectedVoltage_V: reflected,
    inductance_H,
    peak_A: average_A / (realDuty * (1 - 0.5 * rippleRatio)),
  }
}

/** Turns of a winding that the builder's own order of layers lays; null where the order is left to choose. */
function laid({ stack }: Build['transformer'], winding: WindingName): number | null {
  const parts = stack?.filter((item) => item.kind === 'winding').filter((item) => item.winding === winding)
  return parts?.length ? parts.reduce((sum, item) => sum + item.turns, 0) : null
}

/** Room over the least bias voltage where the spike adds to what turns give. */
const biasRoom = 1.08

/**
 * Bias turns for the voltage that is wanted; left open, the chip's typical one. Outside a split primary the winding
 * follows the secondary through its spike, which charges it far above the ratio of turns: the fewest turns then do.
 */
function usualBiasTurns(need: Need, { transformer: t }: Build, parts: PartsUsed, turnsPer_V: number): number {
  const { typical, minimum } = parts.switcher.biasVoltage_V
  const drop_V = parts.biasDiode.drop_V
  if (t.biasVoltage_V === null && t.splitPrimary) {
    const least_V = ((biasRoom * minimum + drop_V) * need.output_V) / need.trimLow_V
    return Math.min(Math.ceil(least_V * turnsPer_V), Math.round((typical + drop_V) * turnsPer_V))
  }
  return Math.round(((t.biasVoltage_V ?? typical) + drop_V) * turnsPer_V)
}
