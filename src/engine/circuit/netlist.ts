import type { Controller } from './controller.ts'
import type { LinearForm } from './form.ts'

/**
 * A network as data. Nodes are named; `'0'` is ground. Every element has a unique name and positive currents
 * flow from its first node to its second. All values are SI. Elements are piecewise linear, so that between
 * events the network is linear and is propagated exactly.
 */
export interface Netlist {
  readonly title: string
  readonly elements: readonly Element[]
  readonly controllers?: readonly Controller[]
  /** Named numbers which controllers and sources read; a steady-state solve may search one. */
  readonly knobs?: Readonly<Record<string, number>>
  /** Conductance of an open diode, avalanche device or open switch, S. Default 1e-10; range 1e-14 to 1e-6. */
  readonly leak_S?: number
}

interface Branch {
  readonly name: string
  readonly a: string
  readonly b: string
}

/** v = R i. */
export interface Resistor extends Branch {
  readonly kind: 'resistor'
  readonly resistance_ohm: number
}

/** i = C dv/dt, v = v(a) - v(b). */
export interface Capacitor extends Branch {
  readonly kind: 'capacitor'
  readonly capacitance_F: number
  readonly initial_V?: number
}

/** v = L di/dt. */
export interface Inductor extends Branch {
  readonly kind: 'inductor'
  readonly inductance_H: number
  readonly initial_A?: number
}

/**
 * Inductor whose flux linkage is an odd piecewise-linear function of current: `inductance_H` up to the first
 * knee, then the slope given with each knee. Knee currents rise from zero; slopes are positive.
 */
export interface SaturatingInductor extends Branch {
  readonly kind: 'saturating-inductor'
  readonly inductance_H: number
  readonly knees: readonly { readonly current_A: number; readonly beyond_H: number }[]
  readonly initial_A?: number
}

/**
 * Any number of coupled windings, v = M di/dt. Coupling is either the full inductance matrix (`matrix_H`, which
 * must be symmetric positive definite) or self inductances with pairwise coupling factors below 1
 * (pairs left out are uncoupled). `a` is the dotted end.
 */
export interface CoupledInductors {
  readonly kind: 'coupled-inductors'
  readonly name: string
  readonly windings: readonly {
    readonly a: string
    readonly b: string
    readonly inductance_H: number
    readonly initial_A?: number
  }[]
  readonly matrix_H?: readonly (readonly number[])[]
  readonly couplings?: readonly { readonly of: readonly [number, number]; readonly k: number }[]
}

/** Windings with `v_w / turns_w` equal for all and `sum(turns_w * i_w) = 0`; `a` is the dotted end. */
export interface IdealTransformer {
  readonly kind: 'ideal-transformer'
  readonly name: string
  readonly windings: readonly { readonly a: string; readonly b: string; readonly turns: number }[]
}

/** Value of a source over time, in volts or amperes. */
export type Waveform =
  | { readonly kind: 'dc'; readonly value: number }
  /** Constant equal to a knob of the netlist. */
  | { readonly kind: 'knob'; readonly knob: string }
  /** offset + amplitude * sin(2 pi f t + phase). */
  | {
      readonly kind: 'sine'
      readonly offset: number
      readonly amplitude: number
      readonly frequency_Hz: number
      readonly phase_rad: number
    }
  /** Straight lines between points; held before the first and after the last. Times rise strictly. */
  | { readonly kind: 'piecewise'; readonly points: readonly (readonly [time_s: number, value: number])[] }
  /** Periodic trapezoid starting at `delay_s` with the rise. */
  | {
      readonly kind: 'pulse'
      readonly low: number
      readonly high: number
      readonly delay_s: number
      readonly rise_s: number
      readonly width_s: number
      readonly fall_s: number
      readonly period_s: number
    }

/** v(a) - v(b) = waveform. */
export interface VoltageSource extends Branch {
  readonly kind: 'voltage-source'
  readonly waveform: Waveform
}

/** Current `waveform` flows from a through the source to b. */
export interface CurrentSource extends Branch {
  readonly kind: 'current-source'
  readonly waveform: Waveform
}

/**
 * Source whose value is a linear form of the network: voltage output covers VCVS and CCVS, current output
 * covers VCCS and CCCS. Each bend adds `gain * max(0, of)`, which makes limits, minimum and maximum:
 * min(x, y) = y - max(0, y - x).
 */
export interface ControlledSource extends Branch {
  readonly kind: 'controlled-voltage' | 'controlled-current'
  readonly value: LinearForm
  readonly bends?: readonly { readonly gain: number; readonly of: LinearForm }[]
}

/**
 * Anode a, cathode b. Conducts above `drop_V` with `slope_ohm`; open (leakage only) below. Optional linear
 * junction capacitance across it. With `transit_s` the diode holds on after its current reverses until the
 * stored charge, dQ/dt = i - Q/transit_s, is gone (charge-control model of the p-n diode).
 */
export interface Diode extends Branch {
  readonly kind: 'diode'
  readonly drop_V: number
  readonly slope_ohm: number
  readonly capacitance_F?: number
  readonly initial_V?: number
  readonly transit_s?: number
}

/**
 * Anode a, cathode b. As a diode forwards; in reverse it conducts beyond `breakdown_V` with
 * `breakdown_slope_ohm`. Set `bidirectional` for a device which breaks down alike in both directions.
 */
export interface Avalanche extends Branch {
  readonly kind: 'avalanche'
  readonly breakdown_V: number
  readonly breakdown_slope_ohm: number
  readonly drop_V: number
  readonly slope_ohm: number
  readonly bidirectional?: boolean
  readonly capacitance_F?: number
  readonly initial_V?: number
}

/** Resistor `on_ohm` when closed, `off_ohm` (or leakage only) when open; set by controllers. */
export interface Switch extends Branch {
  readonly kind: 'switch'
  readonly on_ohm: number
  readonly off_ohm?: number
  readonly capacitance_F?: number
  readonly initial_V?: number
  readonly closed?: boolean
}

/**
 * An element whose law changes slowly against the ringing: filament, thermistor, constant-power load. Over one
 * slow step it is a conductance in parallel with a current source, evaluated at mid step (second order).
 */
export interface SlowElement extends Branch {
  readonly kind: 'slow'
  /** Own states at time zero, e.g. [filament temperature in kelvin]. */
  readonly initial: readonly number[]
  /**
   * The law at own states, time and predicted mid-step voltage: i = conductance_S * v + current_A.
   * Conductance may be negative (constant power); both must be finite at any voltage but 0.
   */
  readonly law: (own: readonly number[], time_s: number, predicted_V: number) => SlowLaw
  /** d(own)/dt from own states and the exact means over the step: power into the element, |.|^2 of v and i. */
  readonly rate?: (own: readonly number[], means: SlowMeans) => readonly number[]
  /** Longest slow step, s. Steps shrink below it so that the law changes by less than about 1 % a step. */
  readonly step_s: number
  /** Relative change of conductance which forces a new linearisation. Default 0 for laws without voltage. */
  readonly hold?: number
  /** The law written for a SPICE behavioural source, when it is to be exported. */
  readonly spice?: SlowSpice
}

export interface SlowLaw {
  readonly conductance_S: number
  readonly current_A: number
}

export interface SlowMeans {
  readonly power_W: number
  readonly voltage_V: number
  readonly current_A: number
}

/**
 * Lines of a SPICE deck for one slow element, given its name and the names of its nodes in the deck, and the
 * present values of its own states.
 */
export type SlowSpice = (name: string, a: string, b: string, own: readonly number[]) => readonly string[]

export type Element =
  | Resistor
  | Capacitor
  | Inductor
  | SaturatingInductor
  | CoupledInductors
  | IdealTransformer
  | VoltageSource
  | CurrentSource
  | ControlledSource
  | Diode
  | Avalanche
  | Switch
  | SlowElement
