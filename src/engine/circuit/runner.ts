import type { Circuit } from './circuit.ts'
import { Control } from './control.ts'
import { Courses, grossSize } from './courses.ts'
import type { LinearForm } from './form.ts'
import { InputBook, inputStride } from './input-book.ts'
import type { OutputRow } from './output-row.ts'
import type { Plan } from './plan.ts'
import { PlanBook } from './plan-book.ts'
import type { RunFailure, RunFailureCode } from './problem.ts'
import type { CircuitState, RunLimits } from './run.ts'
import { Search } from './search.ts'
import { SlowSet } from './slow.ts'
import { Span } from './span.ts'
import { asFailure, RunStop } from './stop.ts'
import { spreadStates, tieStates } from './ties.ts'

/** Events closer than this coincide, s. */
const simultaneous = 1e-13

/** Hooks of a run: statistics and waveforms see every span, the variational solution every event too. */
export interface Watcher {
  /** The circuit follows `runner.span` for 0..h from `runner.time`. */
  span?(runner: Runner, h: number): void
  /** The guard which ended the span: row, rate just before, explicit slope sensitivity. */
  crossing?(
    runner: Runner,
    row: OutputRow,
    rate: number,
    sinceRow: Float64Array | undefined,
    slope: number,
  ): void
  /** After device states settled at an event whose time has sensitivity `row`. */
  settled?(runner: Runner, before: Plan, row: Float64Array | undefined): void
}

/** How far, in rounding tolerances, the guard of a device just switched may start on the wrong side. */
const graceFactor = 5e5

/** A circuit in motion: free states, device states, controllers, clock. */
export class Runner {
  readonly circuit: Circuit
  readonly knobs: Record<string, number>
  time = 0
  /** Free states. */
  x: Float64Array
  devices: Int32Array
  plan: Plan
  readonly span: Span
  readonly control: Control
  readonly slow: SlowSet
  private readonly inputBook: InputBook
  private readonly planBook: PlanBook
  events = 0
  readonly search: Search
  watchers: Watcher[] = []
  private readonly guards: Courses
  /** Number of the guard of each course; those of watches follow those of devices. */
  private readonly guardOf: Int32Array
  private readonly spare: Float64Array
  private readonly limits: Required<RunLimits>
  private until = Number.POSITIVE_INFINITY
  private switchesChanged = false
  private stalled = 0
  /**
   * When each device last crossed its boundary. The two laws that meet there resolve it unequally (a conducting
   * diode in volts on milliohms, a blocking one on gigaohms), so the guard of a device
   * that has just crossed may start a little negative.
   */
  private readonly flippedAt: Float64Array
  private deadTime = -1
  /** Sensitivity row of the event being handled. */
  private crossingRow: Float64Array | undefined

  constructor(
    circuit: Circuit,
    knobs: Readonly<Record<string, number>> | undefined,
    outputs: readonly LinearForm[],
    limits: RunLimits | undefined,
  ) {
    const { layout, structure, netlist } = circuit
    this.circuit = circuit
    this.knobs = { ...netlist.knobs, ...knobs }
    this.limits = { events: limits?.events ?? 2e7, steps: limits?.steps ?? 1e9 }
    const n = structure.free.length
    this.x = new Float64Array(n)
    this.spare = new Float64Array(n)
    this.flippedAt = new Float64Array(layout.devices.length).fill(-1)
    this.devices = Int32Array.from(layout.devices, (device) => device.first)
    this.span = new Span(n, layout.inputs.length)
    this.slow = new SlowSet(
      layout.slows.map((slow) => slow.element),
      n,
    )
    this.inputBook = new InputBook(layout, this.knobs)
    const controllers = netlist.controllers ?? []
    const watches = controllers.flatMap((controller) => Object.values(controller.watches))
    const capacity = layout.devices.length * 2 + watches.length + 4
    this.guards = new Courses(capacity, n)
    this.guardOf = new Int32Array(capacity)
    this.search = new Search(capacity, n)
    this.planBook = new PlanBook(circuit, watches, outputs)
    this.control = new Control(controllers, {
      readForm: (form) => this.valueOf(this.plan.watches[form]!),
      setSwitch: (name, closed) => {
        const d = layout.deviceNumber.get(name)
        if (d === undefined || layout.devices[d]!.kind !== 'switch')
          throw new RunStop('bad-option', `a controller drives ${name}, which is no switch`)
        if (this.devices[d] !== Number(closed)) {
          this.devices[d] = Number(closed)
          this.switchesChanged = true
        }
      },
      knobs: this.knobs,
    })
    this.plan = this.lookUp()
  }

  /** Taylor coefficients of the inputs at the present instant. */
  get inputs(): Float64Array {
    return this.inputBook.coefficients
  }

  get inputDegree(): number {
    return this.inputBook.degree
  }

  /** Start from the initial values of the netlist at time zero. */
  startCold(): void {
    const { layout } = this.circuit
    this.setInputs()
    const full = new Float64Array(this.circuit.stateNames.length)
    layout.caps.forEach((cap, c) => {
      full[c] = cap.initial
    })
    layout.inductors.forEach((inductor, l) => {
      full[layout.caps.length + l] = inductor.initial
    })
    this.takeStates(full)
    this.control.start()
    this.switchesChanged = false
    this.plan = this.lookUp()
    this.beginSlow()
    this.settle()
  }

  resume(state: CircuitState): void {
    this.time = state.time_s
    this.deadTime = -1
    this.flippedAt.fill(-1)
    this.devices = Int32Array.from(state.devices)
    this.slow.restore(state.slow)
    this.control.restore(state.controllers)
    this.setInputs()
    this.takeStates(state.values)
    this.plan = this.lookUp()
    this.beginSlow()
    this.settle()
  }

  private beginSlow(): void {
    if (this.slow.elements.length === 0) return
    this.setInputs()
    if (this.slow.begin(this.time, (i) => this.valueOf(this.plan.slows[i]!))) this.forgetPlans()
    this.setInputs()
  }

  /** Replace the free states in mid-run; devices settle anew. */
  replaceStates(free: ArrayLike<number>): void {
    this.x.set(free)
    this.settle()
  }

  /** Read changed knobs. */
  refreshInputs(): void {
    this.setInputs()
    this.settle()
  }

  snapshot(): CircuitState {
    return {
      time_s: this.time,
      values: spreadStates(this.circuit.structure, this.x, this.inputs, inputStride),
      devices: Int32Array.from(this.devices),
      slow: this.slow.own.map((own) => [...own]),
      controllers: this.control.snapshot(),
    }
  }

  private takeStates(full: Float64Array): void {
    const { structure } = this.circuit
    const consistent = tieStates(this.circuit, this.devices, full, this.inputs, inputStride)
    structure.free.forEach((s, j) => {
      this.x[j] = consistent[s]!
      this.span.stateSize[j] = Math.max(this.span.stateSize[j]!, Math.abs(consistent[s]!))
    })
  }

  /**
   * Run to an absolute time. Throws nothing: a failure is returned. Timers due at that very time are left for
   * the next run, so that a cycle ends just before its clock.
   */
  runTo(until: number, poll?: () => void): RunFailure | undefined {
    try {
      let turn = 0
      this.until = until
      this.handleTimers()
      while (this.time < until) {
        this.turn(until)
        if (poll !== undefined && (++turn & 1023) === 0) poll()
      }
      return undefined
    } catch (error) {
      return asFailure(error, this.time)
    }
  }

  stop(code: RunFailureCode, message: string): never {
    throw new RunStop(code, message)
  }

  /** Follow one span to its end and handle what ends it. */
  private turn(until: number): void {
    const longest = Math.min(this.inputBook.longest_s, this.plan.topology.longest_s)
    let next = Math.min(until, this.control.nextTimer(), this.time + longest)
    if (until - next < simultaneous) next = until
    const slowEnd = this.slow.elements.length > 0 ? this.slow.to_s : Number.POSITIVE_INFINITY
    next = Math.min(next, this.inputBook.cornerAfter(this.time), slowEnd)
    const horizon = next - this.time
    if (horizon > 0) {
      if (!this.inputBook.constant) this.setInputs()
      const { topology } = this.plan
      this.span.begin(topology, this.x, this.inputs, this.inputDegree, horizon)
      this.setGuards()
      this.search.relax = 10 ** Math.min(6, Math.floor(this.stalled / 16))
      this.search.run(this.span, this.guards)
      const { guard, time: h } = this.search.found
      if (this.search.steps > this.limits.steps)
        this.stop('step-budget', `used ${this.limits.steps} sampling steps by ${this.time} s`)
      if (h > 0) {
        if (slowEnd < Number.POSITIVE_INFINITY)
          this.slow.accumulate(this.span, this.plan.slows, this.inputs, this.inputDegree, h)
        for (const watcher of this.watchers) watcher.span?.(this, h)
      }
      this.span.stateAt(h, this.spare)
      let sane = true
      for (let i = 0; i < topology.n; i++) sane = sane && Math.abs(this.spare[i]!) < 1e15
      if (!sane) this.stop('diverged', `states ran away after ${this.time} s`)
      if (guard >= 0) {
        this.cross(guard, h)
        return
      }
      this.swap()
    }
    this.time = next
    this.countEvent()
    if (!this.inputBook.constant) this.afterCorner(horizon)
    if (next >= slowEnd) this.turnSlow()
    this.handleTimers()
  }

  private swap(): void {
    this.x.set(this.spare)
  }

  /** A device or watch crossed its boundary at h. */
  private cross(course: number, h: number): void {
    const { guards, watches } = this.plan
    const before = this.plan
    const deviceGuards = guards.length
    this.countEvent()
    const guard = this.guardOf[course]!
    const rate = this.watchers.length > 0 ? this.guards.rate(course, this.span, h) : 0
    this.swap()
    this.time += h
    if (!this.inputBook.constant) this.setInputs()
    this.crossingRow = undefined
    if (guard < deviceGuards) {
      const { device, next, row } = guards[guard]!
      for (const watcher of this.watchers) watcher.crossing?.(this, row, rate, undefined, 0)
      this.flip(device, next)
      this.flippedAt[device] = this.time
    } else {
      const armed = this.control.armed[guard - deviceGuards]!
      for (const watcher of this.watchers)
        watcher.crossing?.(this, watches[armed.form]!, -rate, armed.sinceRow, armed.slope)
      this.control.fireWatch(guard - deviceGuards, this.time, this.crossingRow)
      if (this.switchesChanged) this.plan = this.lookUp()
      this.switchesChanged = false
    }
    this.settle()
    for (const watcher of this.watchers) watcher.settled?.(this, before, this.crossingRow)
    this.handleTimers()
  }

  /** Called by a watcher to pass on the sensitivity of the event's time. */
  noteCrossing(row: Float64Array): void {
    this.crossingRow = row
  }

  private handleTimers(): void {
    if (this.time >= this.until) return
    while (this.control.nextTimer() <= this.time + simultaneous) {
      const before = this.plan
      this.countEvent()
      this.control.fireTimer(this.time)
      if (this.switchesChanged) {
        this.switchesChanged = false
        this.plan = this.lookUp()
        this.settle()
        for (const watcher of this.watchers) watcher.settled?.(this, before, this.control.eventRow)
      }
    }
    this.control.eventRow = undefined
  }

  /** Sources may step here: tied states follow by an impulse, devices settle anew. */
  private afterCorner(passed: number): void {
    let full: Float64Array | undefined
    if (this.circuit.structure.tieCount > 0) {
      this.inputBook.shift(passed)
      full = spreadStates(this.circuit.structure, this.x, this.inputs, inputStride)
    }
    this.setInputs()
    if (full !== undefined) this.takeStates(full)
    this.settle()
  }

  private turnSlow(): void {
    if (this.slow.advance()) this.forgetPlans()
    this.setInputs()
    this.settle()
  }

  private countEvent(): void {
    this.events++
    if (this.events > this.limits.events)
      this.stop('event-budget', `used ${this.limits.events} events by ${this.time} s`)
    if (this.time > this.deadTime) {
      this.deadTime = this.time
      this.stalled = 0
    } else if (++this.stalled > 300)
      this.stop('chattering', `more than 300 events at ${this.time} s without time passing`)
  }

  private setInputs(): void {
    this.inputBook.expand(this.time, this.slow.current, this.span.inputSize)
  }

  /** Courses of the guards that might turn negative: device boundaries first, then armed watches. */
  private setGuards(): void {
    const { guards, watches } = this.plan
    const { armed } = this.control
    const { span, search } = this
    let count = 0
    for (let g = 0; g < guards.length; g++) {
      const { row, device } = guards[g]!
      const fresh = this.isFresh(device)
      if (!fresh && this.staysPositive(row)) continue
      this.guardOf[count] = g
      search.fresh[count] = Number(fresh)
      this.guards.set(count++, span, row, this.inputs, this.inputDegree)
    }
    for (let i = 0; i < armed.length; i++) {
      const watch = armed[i]!
      const r = count++
      this.guardOf[r] = guards.length + i
      this.guards.set(r, span, watches[watch.form]!, this.inputs, this.inputDegree)
      search.fresh[r] = 0
      this.guards.negate(r, span)
      this.guards.poly[r * inputStride]! -= watch.offset + watch.slope * (this.time - watch.since)
      this.guards.poly[r * inputStride + 1]! -= watch.slope
    }
    this.guards.count = count
  }

  /** True where a guard cannot turn negative within the span, by the reach of every mode. */
  private staysPositive(row: OutputRow): boolean {
    const { reach, horizon } = this.span
    let low = this.valueOf(row)
    for (let k = 0; k < row.cSize.length; k++) low -= row.cSize[k]! * reach[k]!
    if (this.inputDegree > 0)
      for (let u = 0; u < row.d.length; u++) {
        if (row.e[u] !== 0) return false
        let move = 0
        for (let j = this.inputDegree; j >= 1; j--)
          move = (move + Math.abs(this.inputs[u * inputStride + j]!)) * horizon
        low -= Math.abs(row.d[u]!) * move
      }
    return low > 0
  }

  /** Value of an output at the present states and inputs. */
  valueOf(row: OutputRow): number {
    let y = 0
    for (let i = 0; i < row.x.length; i++) y += row.x[i]! * this.x[i]!
    for (let u = 0; u < row.d.length; u++)
      y += row.d[u]! * this.inputs[u * inputStride]! + row.e[u]! * this.inputs[u * inputStride + 1]!
    return y
  }

  private isFresh(device: number): boolean {
    return Math.abs(this.time - this.flippedAt[device]!) < simultaneous
  }

  private toleranceOf(row: OutputRow): number {
    return 2e-12 * this.search.relax * grossSize(row, this.span.stateSize, this.span.inputSize)
  }

  /** Choose device states consistent with the present states: least-index pivoting (Murty 1974). */
  private settle(): void {
    const { layout } = this.circuit
    for (let round = 0; round < 400; round++) {
      let pick = -1
      let worst = 0
      const { guards } = this.plan
      for (let g = 0; g < guards.length; g++) {
        const { row, device } = guards[g]!
        const value = this.valueOf(row)
        if (value >= 0) continue
        const tolerance = this.toleranceOf(row)
        if (value >= -tolerance || (this.isFresh(device) && value >= -graceFactor * tolerance)) continue
        if (round >= 40) {
          pick = g
          break
        }
        const size = -value / tolerance
        if (size > worst) {
          worst = size
          pick = g
        }
      }
      if (pick < 0) return
      this.flip(guards[pick]!.device, guards[pick]!.next)
    }
    const names = this.plan.guards
      .filter(({ row }) => this.valueOf(row) < -this.toleranceOf(row))
      .map(({ device }) => layout.devices[device]!.name)
    this.stop(
      'no-consistent-state',
      `no consistent state of ${[...new Set(names)].join(', ')} at ${this.time} s`,
    )
  }

  private flip(device: number, next: number): void {
    this.devices[device] = next
    this.plan = this.planBook.neighbour(this.plan, device, next, this.devices, this.slow.conductance)
    const d = this.circuit.layout.devices[device]!
    if (d.kind === 'conductor' && d.charge >= 0) {
      const s = this.circuit.stateNames.length - this.circuit.layout.charges + d.charge
      this.x[this.circuit.structure.free.indexOf(s)] = 0
    }
  }

  private forgetPlans(): void {
    this.planBook.forget()
    this.plan = this.lookUp()
  }

  private lookUp(): Plan {
    return this.planBook.find(this.devices, this.slow.conductance)
  }
}
