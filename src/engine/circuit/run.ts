import type { LinearForm } from './form.ts'
import type { RunFailure } from './problem.ts'

/** What to measure: a linear form, or the product of two (power). A product has an average only. */
export type Probe = LinearForm | { readonly product: readonly [LinearForm, LinearForm] }

/** Exact figures of one probe over a window. A product has NaN-free `average` and `integral` only; the rest are 0. */
export interface Statistics {
  readonly average: number
  readonly rms: number
  readonly maximum: number
  readonly minimum: number
  /** Time of the maximum and of the minimum, s. */
  readonly timeOfMaximum_s: number
  readonly timeOfMinimum_s: number
  /** Time integral over the window: charge, volt-seconds or joules. */
  readonly integral: number
}

/** The complete state of a circuit at an instant: resume from it, keep it, compare it. Opaque but for time. */
export interface CircuitState {
  readonly time_s: number
  /** Capacitor voltages, inductor currents and stored charges, in the order of `Circuit.stateNames`. */
  readonly values: Float64Array
  /** State number of every device. */
  readonly devices: Int32Array
  /** Own states of slow elements, in order. */
  readonly slow: readonly (readonly number[])[]
  readonly controllers: readonly ControllerState[]
}

/** Memory, armed watches and running timers of one controller. */
export interface ControllerState {
  readonly memory: Readonly<Record<string, number | boolean | string>>
  readonly armed: readonly {
    readonly watch: string
    readonly offset: number
    readonly slope_per_s: number
    readonly since_s: number
  }[]
  readonly timers: readonly { readonly timer: string; readonly time_s: number }[]
}

export interface RunLimits {
  /** Most switching events. Default 20 million. */
  readonly events?: number
  /** Most sampling steps of the event search. Default 1000 million. */
  readonly steps?: number
}

export interface TransientOptions {
  readonly span_s: number
  /** Resume from here; otherwise from the initial values of the netlist at time zero. */
  readonly start?: CircuitState
  readonly knobs?: Readonly<Record<string, number>>
  readonly probes?: Readonly<Record<string, Probe>>
  /** Statistics between absolute times; windows may overlap. */
  readonly windows?: readonly {
    readonly name: string
    readonly from_s: number
    readonly to_s: number
    /** Only these probes; all when left out. */
    readonly probes?: readonly string[]
  }[]
  /** Statistics of every cycle of this period, as columns. */
  readonly cycles?: { readonly period_s: number; readonly probes?: readonly string[] }
  /** Sampled waveforms between absolute times, with a point on each side of every corner. */
  readonly waveforms?: {
    readonly from_s: number
    readonly to_s: number
    readonly probes: readonly string[]
    /** Points per period of the fastest live ring. Default 24. */
    readonly pointsPerRing?: number
    /** Most points kept; the run fails with 'step-budget' beyond. Default 2 million. */
    readonly points?: number
  }
  readonly limits?: RunLimits
  /** Audit the energy balance (slower). */
  readonly audit?: boolean
  /** Called about every thousand events with the fraction done. */
  readonly progress?: (fraction: number) => void
  /** Polled about every thousand events. */
  readonly cancelled?: () => boolean
}

/** Per-cycle columns of one probe. */
export interface CycleColumns {
  readonly average: Float64Array
  readonly rms: Float64Array
  readonly maximum: Float64Array
  readonly minimum: Float64Array
}

export interface Waveforms {
  readonly time_s: Float64Array
  /** One column a probe, same length as `time_s`. */
  readonly columns: Readonly<Record<string, Float64Array>>
}

export interface EnergyAudit {
  readonly supplied_J: number
  readonly dissipated_J: number
  readonly stored_J: number
  /** (supplied - dissipated - stored) relative to the energy turned over, or to that held where it is more. */
  readonly relativeError: number
  /** The same error in joules per simulated second. */
  readonly error_W: number
}

export interface TransientRun {
  readonly ok: true
  readonly windows: Readonly<Record<string, Readonly<Record<string, Statistics>>>>
  readonly cycles: Readonly<Record<string, CycleColumns>>
  readonly waveforms: Waveforms | undefined
  readonly audit: EnergyAudit | undefined
  readonly final: CircuitState
  readonly events: number
  readonly steps: number
  readonly topologies: number
}

export type TransientResult = TransientRun | RunFailure

export interface SteadyOptions {
  readonly period_s: number
  readonly start?: CircuitState
  readonly knobs?: Readonly<Record<string, number>>
  readonly probes?: Readonly<Record<string, Probe>>
  /** Largest relative change of any state over a period. Default 1e-9. */
  readonly tolerance?: number
  /** Find the knob, between bounds, for which the average of a form is `target`. */
  readonly solve?: {
    readonly knob: string
    readonly low: number
    readonly high: number
    readonly guess?: number
    readonly average: LinearForm
    readonly target: number
    /** Relative tolerance of the average. Default 1e-8. */
    readonly tolerance?: number
  }
  /** Longest cycle tried, in periods (1, 2, 4 ...), when the single cycle is unstable. Default 1. */
  readonly periods?: number
  /** Plain cycles run before the first Newton step. Default 8. */
  readonly settle?: number
  readonly iterations?: number
  readonly limits?: RunLimits
  readonly cancelled?: () => boolean
}

export interface SteadyRun {
  readonly ok: true
  /** State at the start of the cycle, at time 0 of the clock it began with. */
  readonly state: CircuitState
  readonly statistics: Readonly<Record<string, Statistics>>
  readonly knobs: Readonly<Record<string, number>>
  /** Cycle length in periods: 1, or more when subharmonic. */
  readonly periods: number
  readonly subharmonic: boolean
  /** Floquet multipliers, largest magnitude first. */
  readonly multipliers: readonly { readonly re: number; readonly im: number }[]
  /** Largest relative change of a state over the cycle. */
  readonly residual: number
  readonly iterations: number
  /** Cycles simulated in all. */
  readonly cycles: number
}

export interface SteadyFailure {
  readonly ok: false
  readonly code: RunFailure['code'] | 'no-cycle' | 'unstable' | 'subharmonic' | 'target-out-of-reach'
  readonly message: string
  readonly residual: number
  readonly multipliers: readonly { readonly re: number; readonly im: number }[]
}

export type SteadyResult = SteadyRun | SteadyFailure
