import { coreReluctance, rootFluxRatio } from '../../magnetics/gap/index.ts'
import type { PartsUsed } from '../../supply/design.ts'
import type { Need } from '../../supply/need.ts'
import type { Gap } from '../../supply/resolve/gap.ts'
import type { Frame, Ground } from '../space/frames.ts'
import { atLeast, atMost, type Tally } from './tally.ts'

/** What the frame limits need to know of the mains side: voltages at the least power that the stage can draw. */
export interface Rails {
  readonly valley_V: number
  /** Crest at the highest input, sagging under the greatest load. */
  readonly crest_V: number
  /** The same with hardly any load. */
  readonly idleCrest_V: number
  readonly least_W: number
}

const overshoot_V = 12
/** No clamp chosen at 1.3 times the reflected voltage settles below this at the highest input. */
const leastClampRatio = 1.1
/** No ring of a rectifier with its leakage stays below this part of the plain reverse voltage. */
const leastRing = 1.05
const leastGap_m = 50e-6

/**
 * Limits that a frame meets or breaks whatever its copper, each as a bound that errs on the good side: losses only add
 * to the power, lower the valley and raise the peak. True when one is broken beyond doubt, so that no copper mends it.
 */
export function frameBreaks(
  need: Need,
  ground: Ground,
  frame: Frame,
  rails: Rails,
  t: Tally,
  all: boolean,
): boolean {
  const { switcher } = ground
  const { rectifier, biasDiode, optocoupler, biasCapacitor } = frame.parts
  const ratio = frame.turns.turnsRatio
  const reflected_V = (need.output_V + rectifier.drop_V) * ratio
  const { valley_V, crest_V, idleCrest_V, least_W } = rails
  const drop_V = biasDiode.drop_V
  // The design counts the rectifier's drop at its rms current.
  const bias_V = (frame.turns.reflectedVoltage_V / ratio / frame.secondary) * frame.turns.bias - drop_V
  const biasAt = (output_V: number) => ((bias_V + drop_V) * output_V) / need.output_V - drop_V
  const slope = switcher.control.style === 'peak-current' ? switcher.control.slope_A_per_s : 0
  // The most that the delay of the chip adds to its limit, at the least inductance that tolerances leave.
  const delayed_A = switcher.currentLimitDelay_s * (slope + crest_V / (0.7 * frame.turns.inductance_H))
  let broken = false
  const seen = (b: boolean): boolean => {
    broken ||= b
    return b && !all
  }
  if (
    seen(
      atMost(
        t,
        'switcher.peak-current',
        least_W / valley_V + least_W / reflected_V,
        0.96 * (switcher.currentLimit_A.minimum + delayed_A),
      ),
    )
  )
    return true
  if (
    seen(
      atMost(
        t,
        'switcher.drain-margin',
        crest_V + leastClampRatio * reflected_V + overshoot_V,
        0.9 * switcher.drainVoltage_V,
      ),
    )
  )
    return true
  const reverse_V = need.output_V + idleCrest_V / ratio
  if (seen(atMost(t, 'rectifier.reverse-margin', leastRing * reverse_V, rectifier.reverse_V))) return true
  if (seen(atLeast(t, 'switcher.bias-low', biasAt(need.trimLow_V), switcher.biasVoltage_V.minimum)))
    return true
  if (seen(atMost(t, 'switcher.bias-high', biasAt(need.trimHigh_V), switcher.biasVoltage_V.maximum)))
    return true
  if (seen(atMost(t, 'optocoupler.collector', bias_V, optocoupler.collector_V))) return true
  if (
    seen(
      atMost(
        t,
        'bias-capacitor.voltage',
        (bias_V * need.trimHigh_V) / need.output_V,
        biasCapacitor.voltage_V,
      ),
    )
  )
    return true
  seen(
    atMost(
      t,
      'bias-diode.reverse',
      bias_V + (idleCrest_V * frame.turns.bias) / frame.primary,
      biasDiode.reverse_V,
    ),
  )
  return broken && !all
}

/** Limits that follow from the gap: thickness, and flux at the greatest current limit. */
export function gapBreaks(
  ground: Ground,
  frame: Frame,
  gap: Gap,
  crest_V: number,
  t: Tally,
  all: boolean,
): boolean {
  const thin = atLeast(t, 'transformer.gap', gap.gap_m, leastGap_m)
  if (thin && !all) return true
  const flux_T = fluxAtLimit_T(ground, frame, gap, crest_V)
  const saturated = atMost(t, 'core.saturation', flux_T, ground.saturation_T)
  return (thin || saturated) && !all
}

/** Flux at the greatest current limit and inductance, the delay at a crest included. */
export function fluxAtLimit_T(
  { facts, switcher, material }: Ground,
  frame: Frame,
  gap: Gap,
  crest_V: number,
): number {
  const L = gap.inductance_H.maximum
  const core_per_H = coreReluctance(facts.geometry.effective.C1_per_m, material.initialPermeability.typical)
  const root = rootFluxRatio(facts.gap.post, core_per_H, gap.gap_m)
  const area_m2 = Math.min(facts.geometry.effective.minimumArea_m2, facts.geometry.post.area_m2 / root)
  const peak_A = switcher.currentLimit_A.maximum + (crest_V * switcher.currentLimitDelay_s) / L
  return (L * peak_A) / (frame.primary * area_m2)
}

/** Hottest that the coil may get. */
export const hottestCoil_C = (parts: PartsUsed): number =>
  Math.min(
    parts.former.temperature_C,
    parts.primaryWire.temperature_C,
    parts.secondaryWire.temperature_C,
    parts.biasWire.temperature_C,
    parts.tape.temperature_C,
    parts.material.curie_C - 80,
  )
