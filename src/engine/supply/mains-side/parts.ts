import {
  answerHarmonics,
  bleedPower,
  bulkInSurge_V,
  type CapacitorLife,
  capacitorLife,
  type FuseReading,
  type HarmonicAnswer,
  hotThermistor,
  inrush,
  largestBleed,
  readFuse,
  surgeThroughVaristor,
  thermistorResistance,
} from '../../mains/index.ts'
import { bulkRippleAllowed_A } from '../bulk-ripple.ts'
import type { Design } from '../design.ts'
import type { Operation } from '../evaluate/operate.ts'
import { at, type Evaluation } from '../evaluation.ts'

/** Short-circuit current of a household socket; common practice, no source. */
export const prospective_A = 1000
/** Surge between the lines that ordinary equipment meets, V (IEC 61000-4-5, from memory). */
export const surge_V = 1000

const highest_V = (d: Design): number =>
  d.need.source.kind === 'mains' ? d.need.source.maximum_Vrms : d.need.source.maximum_V
const onMains = (d: Design): boolean => d.need.source.kind === 'mains'

/** One switch-on, the empty bulk at the crest of the highest input. */
export interface PlugIn {
  /** Pause since it was switched off hot; null for a cold start. */
  readonly pause_s: number | null
  readonly thermistor_C: number
  readonly thermistor_ohm: number
  readonly peak_A: number
  readonly integral_A2s: number
}

const pauses_s = [60, 20, 5, 0] as const
/** Line and contacts, as for the inrush of the fixed readings; common practice, no source. */
const line_ohm = 0.4

/**
 * Inrush from cold and after pauses of a supply that ran at full load: the thermistor cools with its heat capacity over
 * its dissipation, the bulk capacitor is taken as empty each time. Without a thermistor only the cold start.
 */
export function plugIns(d: Design, input_Arms: number): readonly PlugIn[] {
  const { parts, need } = d
  const cold = plugIn(d, null, need.ambient_C)
  if (parts.ntc === null) return [cold]
  const { temperature_C } = hotThermistor(parts.ntc, input_Arms, need.ambient_C)
  const tau_s = parts.ntc.heatCapacity_J_per_K / parts.ntc.dissipation_W_per_K
  return [
    cold,
    ...pauses_s.map((pause_s) =>
      plugIn(d, pause_s, need.ambient_C + (temperature_C - need.ambient_C) * Math.exp(-pause_s / tau_s)),
    ),
  ]
}

/** Peak of a switch-on right after running: the thermistor as hot as at this current, the bulk empty, A. */
export const hotRestart_Apeak = (d: Design, input_Arms: number): number =>
  plugIn(
    d,
    0,
    d.parts.ntc ? hotThermistor(d.parts.ntc, input_Arms, d.need.ambient_C).temperature_C : d.need.ambient_C,
  ).peak_A

function plugIn(d: Design, pause_s: number | null, thermistor_C: number): PlugIn {
  const { parts } = d
  const crest_V = (onMains(d) ? Math.SQRT2 : 1) * highest_V(d) - 2 * (parts.bridge?.drop_V ?? 0)
  const fixedResistance_ohm =
    line_ohm +
    (parts.fuse?.resistance_ohm ?? 0) +
    (parts.commonModeChoke?.resistance_ohm ?? 0) +
    2 * (parts.bridge?.slope_ohm ?? 0) +
    parts.bulkCapacitor.resistance_ohm / d.supply.build.bulkCount
  const surge = inrush({
    crest_V,
    capacitance_F: d.bulkCapacitance_F.maximum,
    fixedResistance_ohm,
    thermistor: parts.ntc,
    thermistor_C,
  })
  return {
    pause_s,
    thermistor_C,
    thermistor_ohm: parts.ntc ? thermistorResistance(parts.ntc, thermistor_C) : 0,
    peak_A: surge.peak_A,
    integral_A2s: surge.squareIntegral_A2s,
  }
}

/**
 * Life of one bulk capacitor by the 10 K rule, at the air inside the case; its ripple as a part of what it may carry
 * in this air, as the ranked limit counts it. Null where the supply does not run.
 */
export function bulkLife(d: Design, evaluation: Evaluation, there: Operation): CapacitorLife | null {
  const readings = at(evaluation, 'nominal-100')?.readings
  if (!readings) return null
  const { bulkCapacitor: part } = d.parts
  const count = d.supply.build.bulkCount
  const life = capacitorLife(
    part,
    {
      line_Arms: readings.bulkRippleLine_Arms / count,
      switching_Arms: readings.bulkRippleSwitch_Arms / count,
      ratedLine_Arms: part.ripple100Hz_A,
      ratedSwitching_Arms: part.ripple100kHz_A,
    },
    there.inside_C,
  )
  return { ...life, rippleUse: readings.bulkRippleEquivalent_Arms / bulkRippleAllowed_A(d, readings) }
}

/** Loads of the fuse at the condition of most current and the cold inrush; null without a fuse. */
export function fuseUse(d: Design, most_Arms: number, cold: PlugIn, inside_C: number): FuseReading | null {
  return d.parts.fuse === null
    ? null
    : readFuse(d.parts.fuse, {
        current_Arms: most_Arms,
        inrush_A2s: cold.integral_A2s,
        prospective_A,
        ambient_C: inside_C,
      })
}

export interface BleedAnswer {
  readonly resistor_ohm: number
  readonly loss_W: number
  /** Largest for 37 % of the crest after 1 s, and for 60 V after 2 s. */
  readonly byShare_ohm: number
  readonly by60V_ohm: number
}

/** The X capacitor's bleed resistor against the two usual targets; null without an X capacitor, or on DC. */
export function bleedOf(d: Design): BleedAnswer | null {
  const { xCapacitor } = d.parts
  if (xCapacitor === null || !onMains(d)) return null
  const crest_V = highest_V(d) * Math.SQRT2
  const C = xCapacitor.capacitance_F * (1 + xCapacitor.toleranceUp)
  return {
    resistor_ohm: d.bleed_ohm,
    loss_W: d.bleed_ohm > 0 ? bleedPower(highest_V(d), d.bleed_ohm) : 0,
    byShare_ohm: largestBleed(C, crest_V, 0.37 * crest_V, 1),
    by60V_ohm: largestBleed(C, crest_V, 60, 2),
  }
}

/** Harmonics of the charging pulse at one operation, against IEC 61000-3-2; null on DC. */
export function harmonicsOf(d: Design, there: Operation): HarmonicAnswer | null {
  if (!onMains(d)) return null
  const { bulk } = there.input
  return answerHarmonics(bulk.input_Apeak, bulk.conductionEnd_rad - bulk.conductionStart_rad, bulk.input_W)
}

/**
 * Bulk voltage after a surge between the lines at the crest of the highest mains, with the thermistor hot: behind the
 * varistor, or behind the generator's 2 ohm where there is none. The crest alone on DC.
 */
export function surgedBulkOf(d: Design): number {
  const { parts } = d
  const surge = surgeOf(d)
  const crest_V = onMains(d) ? highest_V(d) * Math.SQRT2 : highest_V(d)
  return bulkInSurge_V({
    crest_V,
    across_V: onMains(d) ? (surge?.letThrough_V ?? crest_V + surge_V) : crest_V,
    capacitance_F: d.bulkCapacitance_F.minimum,
    series_ohm:
      (surge ? 0 : generator_ohm) +
      (parts.ntc?.hot_ohm ?? 0) +
      (parts.fuse?.resistance_ohm ?? 0) +
      (parts.commonModeChoke?.resistance_ohm ?? 0) +
      2 * (parts.bridge?.slope_ohm ?? 0) +
      parts.bulkCapacitor.resistance_ohm / d.supply.build.bulkCount,
    series_H: parts.commonModeChoke?.leakage_H ?? 0,
  })
}

/** Resistance of the surge generator (IEC 61000-4-5, from memory). */
const generator_ohm = 2

/** What a surge between the lines does to the varistor; null without one. */
export const surgeOf = (d: Design): { readonly current_A: number; readonly letThrough_V: number } | null =>
  d.parts.varistor === null || !onMains(d)
    ? null
    : surgeThroughVaristor(d.parts.varistor, surge_V, highest_V(d))
