import {
  type Divider,
  dividerSensitivity,
  type OpenWiper,
  openWiper,
  type TrimRange,
  trimRange,
  worstCaseOutput,
} from '../../loop/index.ts'
import type { Spread } from '../../quantity/spread.ts'
import type { Design } from '../design.ts'

export interface TrimTable {
  readonly range: TrimRange
  /** Output as built: worst cases of reference and resistors, with drift; of a trimmed one, its drift alone. */
  readonly worst: Spread
  /** The same as a part of the set voltage, the larger side. */
  readonly deviation: number
  readonly trimmed: boolean
  /** Relative change of the output for a relative change of one divider resistor. */
  readonly sensitivity: number
  readonly openWiper: OpenWiper | null
}

/** Resistors of the divider: metal film of 1 %, 50 ppm/K against each other, as the parts list asks. */
const resistorTolerance = 0.01
const resistorDrift_per_K = 50e-6
/** Span of temperature that drift is counted over, K. */
const warmth_K = 50

/** Range of the trimmer, worst-case output and its sensitivity, for the divider of a design. */
export function trimOf(d: Design): TrimTable {
  const { parts, feedback, need } = d
  const { reference, trimmer } = parts
  const divider: Divider = {
    top_ohm: feedback.dividerTop_ohm,
    bottom_ohm: feedback.dividerBottom_ohm,
    trimmer_ohm: trimmer?.resistance_ohm ?? 0,
    tolerance: resistorTolerance,
    trimmerTolerance: trimmer?.tolerance ?? 0,
    referenceInput_A: reference.inputCurrent_A,
  }
  const sensitivity = dividerSensitivity(need.output_V, reference.voltage_V.typical)
  const drift = warmth_K * (reference.drift_per_K + sensitivity * resistorDrift_per_K)
  const set_V = need.output_V
  const worst = trimmer
    ? { minimum: set_V * (1 - drift), typical: set_V, maximum: set_V * (1 + drift) }
    : worstCaseOutput(reference.voltage_V, divider, drift)
  return {
    range: trimRange(reference.voltage_V, divider),
    worst,
    deviation: Math.max(worst.maximum / set_V - 1, 1 - worst.minimum / set_V),
    trimmed: trimmer !== null,
    sensitivity,
    openWiper: trimmer ? openWiper('rheostat-bottom', reference.voltage_V.typical) : null,
  }
}
