import type { LinearForm } from './form.ts'

/** Discrete memory of a controller: plain values, copied whenever a state of the circuit is kept. */
export type Memory = Readonly<Record<string, number | boolean | string>>

/**
 * A small discrete controller: comparators, latches, timers. It watches linear forms of the network against
 * time ramps and answers events by closing and opening switches. It has no memory outside `memory`, so that
 * a state of the circuit can be kept and resumed.
 *
 * A watch fires when `of + offset + slope * (t - since)` is or becomes positive while armed; it is then
 * disarmed. Timers fire once.
 */
export interface Controller {
  readonly name: string
  /** Forms this controller may watch or read, by name. */
  readonly watches: Readonly<Record<string, LinearForm>>
  readonly memory: Memory
  /** Called once at time zero: set switches, arm watches, start timers. */
  readonly start: (io: ControllerIo) => void
  /** Called when the watch or timer called `event` fires. */
  readonly react: (event: string, io: ControllerIo) => void
}

/** What a controller can see and do at an event. */
export interface ControllerIo {
  readonly time_s: number
  recall(key: string): number | boolean | string
  remember(key: string, value: number | boolean | string): void
  /** Value of a watched form just before the event. */
  read(watch: string): number
  /** Value of a knob of the netlist. */
  knob(name: string): number
  /** Close or open a switch of the netlist. */
  set(switchName: string, closed: boolean): void
  /** Arm a watch: fires when `of + offset + slope_per_s * (t - now)` is or becomes positive. */
  arm(watch: string, ramp?: { readonly offset?: number; readonly slope_per_s?: number }): void
  disarm(watch: string): void
  /** Fire `timer` at an absolute time (a clock). */
  timerAt(timer: string, time_s: number): void
  /** Fire `timer` a delay after now (a propagation delay, a blanking time). */
  timerAfter(timer: string, delay_s: number): void
  cancel(timer: string): void
}
