import type { Controller, ControllerIo } from './controller.ts'
import type { ControllerState } from './run.ts'
import { RunStop } from './stop.ts'

/** An armed watch: fires when its form + offset + slope (t - since) turns positive. */
export interface Armed {
  readonly controller: number
  readonly watch: string
  /** Number of the watched form among all of the netlist. */
  readonly form: number
  readonly offset: number
  readonly slope: number
  readonly since: number
  /** Sensitivity of `since` to the states at the start of the cycle, when tracked. */
  readonly sinceRow: Float64Array | undefined
}

export interface Timer {
  readonly controller: number
  readonly name: string
  readonly time: number
  readonly row: Float64Array | undefined
}

/** What the controllers need from the running circuit. */
export interface Bench {
  /** Value of a watched form now. */
  readForm(form: number): number
  setSwitch(name: string, closed: boolean): void
  readonly knobs: Readonly<Record<string, number>>
}

/** The controllers of one run: memories, armed watches and timers. */
export class Control {
  readonly controllers: readonly Controller[]
  readonly bench: Bench
  readonly armed: Armed[] = []
  readonly timers: Timer[] = []
  private memory: Record<string, number | boolean | string>[]
  private readonly formNumber: Map<string, number>[] = []
  private now = 0
  private readonly desks: ControllerIo[] = []
  /** Sensitivity of the present event's time, for timers and ramps started by it. */
  eventRow: Float64Array | undefined

  constructor(controllers: readonly Controller[], bench: Bench) {
    this.controllers = controllers
    this.bench = bench
    this.memory = controllers.map((controller) => ({ ...controller.memory }))
    let next = 0
    for (const controller of controllers) {
      const map = new Map<string, number>()
      for (const watch of Object.keys(controller.watches)) map.set(watch, next++)
      this.formNumber.push(map)
    }
  }

  start(): void {
    this.controllers.forEach((controller, c) => {
      controller.start(this.ioAt(c, 0))
    })
  }

  nextTimer(): number {
    let first = Number.POSITIVE_INFINITY
    for (const timer of this.timers) if (timer.time < first) first = timer.time
    return first
  }

  /** Fire the earliest timer, at `time`. */
  fireTimer(time: number): void {
    let index = 0
    for (let i = 1; i < this.timers.length; i++)
      if (this.timers[i]!.time < this.timers[index]!.time) index = i
    const timer = this.timers[index]!
    this.timers.splice(index, 1)
    this.eventRow = timer.row
    this.controllers[timer.controller]!.react(timer.name, this.ioAt(timer.controller, time))
  }

  fireWatch(index: number, time: number, row: Float64Array | undefined): void {
    const armed = this.armed[index]!
    this.armed.splice(index, 1)
    this.eventRow = row
    this.controllers[armed.controller]!.react(armed.watch, this.ioAt(armed.controller, time))
  }

  snapshot(): ControllerState[] {
    return this.controllers.map((_, c) => ({
      memory: { ...this.memory[c]! },
      armed: this.armed
        .filter((armed) => armed.controller === c)
        .map(({ watch, offset, slope, since }) => ({ watch, offset, slope_per_s: slope, since_s: since })),
      timers: this.timers
        .filter((timer) => timer.controller === c)
        .map(({ name, time }) => ({ timer: name, time_s: time })),
    }))
  }

  restore(states: readonly ControllerState[]): void {
    this.armed.length = 0
    this.timers.length = 0
    this.memory = states.map((state) => ({ ...state.memory }))
    states.forEach((state, controller) => {
      for (const { watch, offset, slope_per_s, since_s } of state.armed)
        this.armed.push({
          controller,
          watch,
          form: this.formNumber[controller]!.get(watch)!,
          offset,
          slope: slope_per_s,
          since: since_s,
          sinceRow: undefined,
        })
      for (const { timer, time_s } of state.timers)
        this.timers.push({ controller, name: timer, time: time_s, row: undefined })
    })
  }

  private ioAt(c: number, time: number): ControllerIo {
    this.now = time
    this.desks[c] ??= this.makeIo(c)
    return this.desks[c]!
  }

  private makeIo(c: number): ControllerIo {
    const { controllers, bench, armed, timers } = this
    const memory = () => this.memory[c]!
    const now = () => this.now
    const name = controllers[c]!.name
    const form = (watch: string): number => {
      const number = this.formNumber[c]!.get(watch)
      if (number === undefined)
        throw new RunStop('bad-option', `controller ${name} has no watch called ${watch}`)
      return number
    }
    const drop = <T extends { controller: number }>(list: T[], test: (item: T) => boolean) => {
      for (let i = list.length - 1; i >= 0; i--)
        if (list[i]!.controller === c && test(list[i]!)) list.splice(i, 1)
    }
    const schedule = (timer: string, at: number, row: Float64Array | undefined) => {
      if (!Number.isFinite(at))
        throw new RunStop('bad-option', `controller ${name}: timer ${timer} at ${at} s`)
      drop(timers, (item) => item.name === timer)
      timers.push({ controller: c, name: timer, time: Math.max(at, this.now), row })
    }
    return {
      get time_s() {
        return now()
      },
      recall: (key) => {
        const value = memory()[key]
        if (value === undefined)
          throw new RunStop('bad-option', `controller ${name} remembers nothing called ${key}`)
        return value
      },
      remember: (key, value) => {
        memory()[key] = value
      },
      read: (watch) => bench.readForm(form(watch)),
      knob: (key) => {
        const value = bench.knobs[key]
        if (value === undefined) throw new RunStop('bad-option', `controller ${name}: no knob called ${key}`)
        return value
      },
      set: (switchName, closed) => bench.setSwitch(switchName, closed),
      arm: (watch, ramp) => {
        const number = form(watch)
        drop(armed, (item) => item.watch === watch)
        armed.push({
          controller: c,
          watch,
          form: number,
          offset: ramp?.offset ?? 0,
          slope: ramp?.slope_per_s ?? 0,
          since: this.now,
          sinceRow: this.eventRow,
        })
      },
      disarm: (watch) => drop(armed, (item) => item.watch === watch),
      timerAt: (timer, at) => schedule(timer, at, undefined),
      timerAfter: (timer, delay) => schedule(timer, this.now + delay, this.eventRow),
      cancel: (timer) => drop(timers, (item) => item.name === timer),
    }
  }
}
