import { requireBetween } from '../quantity/require.ts'
import type { Spread } from '../quantity/spread.ts'

/** Divider from output to the reference input, with an optional trimmer wired as a rheostat in its lower arm. */
export interface Divider {
  readonly top_ohm: number
  readonly bottom_ohm: number
  readonly trimmer_ohm: number
  /** Relative tolerances of fixed resistors and of the trimmer. */
  readonly tolerance: number
  readonly trimmerTolerance: number
  readonly referenceInput_A: number
}

/** Output voltage: Vo = Vref (1 + Rtop/Rbottom) + Iin Rtop, V. */
export function outputVoltage(
  reference_V: number,
  top_ohm: number,
  bottom_ohm: number,
  input_A: number,
): number {
  requireBetween('top_ohm', top_ohm, 0, 1e9, 'ohm')
  requireBetween('bottom_ohm', bottom_ohm, 1e-3, Number.POSITIVE_INFINITY, 'ohm')
  return reference_V * (1 + top_ohm / bottom_ohm) + input_A * top_ohm
}

export interface TrimRange {
  /** At the two ends of the trimmer, everything at its typical value. */
  readonly lowest_V: number
  readonly highest_V: number
  /** What the trimmer is certain to reach: the highest low end and the lowest high end over all tolerances. */
  readonly certainLow_V: number
  readonly certainHigh_V: number
  /** The most and the least output over tolerances and trimmer positions. */
  readonly worstLow_V: number
  readonly worstHigh_V: number
}

/** Range of output voltage which a divider with its trimmer gives, with tolerances of resistors and reference. */
export function trimRange(reference_V: Spread, divider: Divider): TrimRange {
  const d = divider
  const volts = (reference: number, top: number, bottom: number, trimmer: number): number =>
    outputVoltage(reference, d.top_ohm * top, d.bottom_ohm * bottom + trimmer, d.referenceInput_A)
  const up = 1 + d.tolerance
  const down = 1 - d.tolerance
  const most = d.trimmer_ohm * (1 + d.trimmerTolerance)
  const least = d.trimmer_ohm * (1 - d.trimmerTolerance)
  return {
    lowest_V: volts(reference_V.typical, 1, 1, d.trimmer_ohm),
    highest_V: volts(reference_V.typical, 1, 1, 0),
    certainLow_V: volts(reference_V.maximum, up, down, least),
    certainHigh_V: volts(reference_V.minimum, down, up, 0),
    worstLow_V: volts(reference_V.minimum, down, up, most),
    worstHigh_V: volts(reference_V.maximum, up, down, 0),
  }
}

/** Worst-case output of a fixed divider, or of one trimmed to `output_V` once and then left to drift. */
export function worstCaseOutput(reference_V: Spread, divider: Divider, drift: number): Spread {
  requireBetween('drift', drift, 0, 1)
  const range = trimRange(reference_V, { ...divider, trimmer_ohm: 0 })
  const typical = range.lowest_V
  return { minimum: range.worstLow_V * (1 - drift), typical, maximum: range.worstHigh_V * (1 + drift) }
}

export type TrimmerPlace = 'rheostat-bottom' | 'rheostat-top' | 'potentiometer'

export interface OpenWiper {
  readonly output: 'falls' | 'rises'
  readonly limit_V: number | null
  readonly note: string
}

/**
 * Which way the output goes when the trimmer's wiper loses contact. In the lower arm the arm opens and the output
 * falls to about the reference; in the upper arm, or as a potentiometer with its wiper on the reference input, the
 * reference input loses its signal and the output runs up as far as the power stage can drive it.
 */
export function openWiper(place: TrimmerPlace, reference_V: number): OpenWiper {
  if (place === 'rheostat-bottom')
    return {
      output: 'falls',
      limit_V: reference_V,
      note: 'open wiper: lower arm open, the output falls towards the reference voltage',
    }
  return {
    output: 'rises',
    limit_V: null,
    note: 'open wiper: the reference input is starved and the output runs away; move the trimmer to the lower arm',
  }
}

/** Relative change of output for a relative change of one part: d ln Vo/d ln R = +-(Vo - Vref)/Vo; 1 for the reference. */
export const dividerSensitivity = (output_V: number, reference_V: number): number =>
  (output_V - reference_V) / output_V
