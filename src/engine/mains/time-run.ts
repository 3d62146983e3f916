import type { LampModel } from './lamp.ts'
import type { Thermistor } from './thermistor.ts'

/** The mains side as it is solved in time: source, series parts, bridge, bulk capacitor, load. */
export interface MainsRun {
  readonly source:
    | {
        readonly kind: 'mains'
        readonly voltage_Vrms: number
        readonly frequency_Hz: number
        readonly phase_rad: number
      }
    | { readonly kind: 'dc'; readonly voltage_V: number }
  /** Line, fuse, choke: what does not change with temperature. */
  readonly fixedResistance_ohm: number
  /** One diode; two conduct at a time. */
  readonly bridgeDrop_V: number
  readonly bridgeSlope_ohm: number
  readonly capacitance_F: number
  readonly startVoltage_V: number
  readonly lamp: LampModel | null
  readonly thermistor: Thermistor | null
  readonly ambient_C: number
  readonly load: MainsLoad
  readonly duration_s: number
  /** Interval of the recorded waveform; a whole period of the mains for a slow picture, 0.2 ms for a fine one. */
  readonly sample_s: number
}

export interface MainsLoad {
  /** Power asked of the capacitor over time: straight lines between points, held after the last. */
  readonly power: readonly { readonly time_s: number; readonly power_W: number }[]
  /** Below this voltage the constant-power load turns into the resistor knee^2/P. */
  readonly knee_V: number
  /** A resistor across the capacitor: a bleed, or a fault. Null for none. */
  readonly shunt_ohm: number | null
  /** The converter's own start and stop voltages, with the pause after a stop; null: it always draws. */
  readonly gate: { readonly start_V: number; readonly stop_V: number; readonly pause_s: number } | null
}

/** Readings over one period of the mains (20 ms for a DC feed). */
export interface MainsCycle {
  readonly start_s: number
  readonly busLow_V: number
  readonly busHigh_V: number
  readonly bus_Vaverage: number
  readonly line_Apeak: number
  readonly line_Arms: number
  readonly input_W: number
  readonly lamp_W: number
  readonly filamentLow_K: number
  readonly filament_K: number
  readonly filamentHigh_K: number
  readonly thermistor_C: number
  /** Fraction of the period in which the converter drew power. */
  readonly running: number
}

export interface MainsTrace {
  readonly ok: true
  /** Columns sampled every `sample_s` from time 0: seconds, volts, amperes, kelvin, C. */
  readonly time_s: Float64Array
  readonly bus_V: Float64Array
  readonly line_A: Float64Array
  readonly filament_K: Float64Array
  readonly thermistor_C: Float64Array
  readonly cycles: readonly MainsCycle[]
  readonly steps: number
  /** Times at which the converter started and stopped by its gate. */
  readonly starts_s: readonly number[]
  readonly stops_s: readonly number[]
}

export interface MainsRunFailure {
  readonly ok: false
  readonly code: 'step-budget' | 'diverged'
  readonly message: string
  readonly time_s: number
}
