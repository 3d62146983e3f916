import { requireBetween } from '../quantity/require.ts'
import { CycleMeter } from './cycle-meter.ts'
import { dormandPrince, newStages } from './dormand-prince.ts'
import { lampResistance } from './lamp.ts'
import { thermistorResistance } from './thermistor.ts'
import type { MainsCycle, MainsRun, MainsRunFailure, MainsTrace } from './time-run.ts'

const stepBudget = 4_000_000
/** Local error allowed in a step: volts, kelvin of the filament, kelvin of the thermistor. */
const tolerance = [1e-5, 1e-3, 1e-4] as const

/**
 * Solves the mains side in time: bulk voltage, filament and thermistor temperature as states, the bridge piecewise
 * linear with exact instants of commutation.
 *
 * Conducting: C dv/dt = i - load(v), i = (|e| - 2 Vf - v)/(R + 2 Rd + Rlamp(T) + Rntc(T)); blocking: i = 0. Dormand-Prince
 * steps of order 5 with error control (Dormand and Prince, J. Comp. Appl. Math. 6 (1980) 19; coefficients from memory,
 * order checked by a test); steps end on every crest and zero crossing of the mains, on every corner of the load, and on
 * every commutation, which is found by false position on the step's length. Returns a typed failure, never a number, when
 * the steps run out. Units SI.
 */
export function solveMainsInTime(run: MainsRun): MainsTrace | MainsRunFailure {
  check(run)
  return new Solver(run).solve()
}

function check(run: MainsRun): void {
  requireBetween('fixedResistance_ohm', run.fixedResistance_ohm, 0.01, 1e5, 'ohm')
  requireBetween('bridgeDrop_V', run.bridgeDrop_V, 0, 10, 'V')
  requireBetween('bridgeSlope_ohm', run.bridgeSlope_ohm, 0, 100, 'ohm')
  requireBetween('capacitance_F', run.capacitance_F, 1e-9, 0.1, 'F')
  requireBetween('startVoltage_V', run.startVoltage_V, 0, 1000, 'V')
  requireBetween('duration_s', run.duration_s, 1e-4, 3600, 's')
  requireBetween('sample_s', run.sample_s, Math.max(1e-6, run.duration_s / 1e6), run.duration_s, 's')
  requireBetween('knee_V', run.load.knee_V, 1, 1000, 'V')
  requireBetween('load.power (points)', run.load.power.length, 1, 1000)
  for (const [k, point] of run.load.power.entries())
    requireBetween(`load.power[${k}].power_W`, point.power_W, 0, 1e5, 'W')
  if (run.load.shunt_ohm !== null) requireBetween('shunt_ohm', run.load.shunt_ohm, 0.01, 1e12, 'ohm')
  if (run.source.kind === 'mains') {
    requireBetween('voltage_Vrms', run.source.voltage_Vrms, 1, 1000, 'V')
    requireBetween('frequency_Hz', run.source.frequency_Hz, 1, 1000, 'Hz')
  } else requireBetween('voltage_V', run.source.voltage_V, 1, 1000, 'V')
}

class Solver {
  private readonly run: MainsRun
  private readonly crest: number
  private readonly omega: number
  private readonly phase: number
  private readonly drop: number
  private readonly fixed: number
  private readonly period_s: number
  private conducting = false
  private drawing: boolean
  private pausedUntil_s = 0
  private time = 0
  /** Bulk voltage, filament K, thermistor C. */
  private readonly y: Float64Array
  private readonly next = new Float64Array(3)
  private readonly stages = newStages(3)
  private readonly derivative = (t: number, y: Float64Array, out: Float64Array): void =>
    this.slopes(t, y, out)
  private readonly starts: number[] = []
  private readonly stops: number[] = []

  constructor(run: MainsRun) {
    this.run = run
    const mains = run.source.kind === 'mains' ? run.source : null
    this.crest = mains ? mains.voltage_Vrms * Math.SQRT2 : run.source.kind === 'dc' ? run.source.voltage_V : 0
    this.omega = mains ? 2 * Math.PI * mains.frequency_Hz : 0
    this.phase = mains ? mains.phase_rad : Math.PI / 2
    this.period_s = mains ? 1 / mains.frequency_Hz : 0.02
    this.drop = 2 * run.bridgeDrop_V
    this.fixed = run.fixedResistance_ohm + 2 * run.bridgeSlope_ohm
    this.y = Float64Array.of(run.startVoltage_V, run.lamp?.room_K ?? 300, run.ambient_C)
    this.drawing = run.load.gate === null
  }

  solve(): MainsTrace | MainsRunFailure {
    const { run, y } = this
    const count = Math.floor(run.duration_s / run.sample_s + 1e-9) + 1
    const time_s = new Float64Array(count)
    const bus_V = new Float64Array(count)
    const line_A = new Float64Array(count)
    const filament_K = new Float64Array(count)
    const thermistor_C = new Float64Array(count)
    const cycles: MainsCycle[] = []
    const meter = new CycleMeter(y)
    let sample = 0
    let cycleEnd = this.period_s
    let steps = 0
    let h = 1e-6
    let corner = this.nextCorner(0)
    this.conducting = this.pressure(0, y) > 0
    this.slopes(0, y, this.stages.k1)
    const tiny = 1e-12 * run.duration_s
    for (;;) {
      while (sample < count && sample * run.sample_s <= this.time + tiny) {
        time_s[sample] = sample * run.sample_s
        bus_V[sample] = y[0]!
        line_A[sample] = this.current(this.time, y)
        filament_K[sample] = y[1]!
        thermistor_C[sample] = y[2]!
        sample++
      }
      if (this.time >= cycleEnd - tiny) {
        cycles.push(meter.close(cycleEnd - this.period_s, this.period_s))
        cycleEnd += this.period_s
      }
      if (this.time >= run.duration_s - tiny) break
      if (this.time >= corner - tiny) corner = this.nextCorner(this.time)
      const end = Math.min(corner, cycleEnd, run.duration_s, sample * run.sample_s)
      const room = end - this.time
      let length = Math.min(h, room, this.conducting ? this.period_s / 320 : room)
      let error = this.step(length)
      while (error > 1 && length > 1e-12) {
        length *= Math.max(0.2, 0.9 * error ** -0.2)
        error = this.step(length)
        if (++steps > stepBudget) break
      }
      if (++steps > stepBudget || !Number.isFinite(this.next[0]!))
        return {
          ok: false,
          code: steps > stepBudget ? 'step-budget' : 'diverged',
          message: `the mains side was solved to ${this.time.toPrecision(4)} s of ${run.duration_s} s in ${steps} steps`,
          time_s: this.time,
        }
      const grown = length * Math.min(4, 0.9 * Math.max(error, 1e-4) ** -0.2)
      h = length < room || grown > h ? grown : h
      const event = this.locate(length)
      if (event !== null) {
        length = event.length
        h = Math.min(h, 5e-5)
      }
      meter.add(this.time, length, y, this.next, this.stages.k1, this.stages.k7, this)
      const finished = this.time + length
      this.time = Math.abs(finished - end) < tiny ? end : finished
      y.set(this.next)
      if (event !== null) this.toggle(event.kind)
      this.slopes(this.time, y, this.stages.k1)
    }
    return {
      ok: true,
      time_s,
      bus_V,
      line_A,
      filament_K,
      thermistor_C,
      cycles,
      steps,
      starts_s: this.starts,
      stops_s: this.stops,
    }
  }

  /** Source voltage at the bridge's input, signed. */
  source(t: number): number {
    return this.omega === 0 ? this.crest : this.crest * Math.sin(this.omega * t + this.phase)
  }

  /** Forward voltage beyond what the bridge needs: conducting while positive. */
  private pressure(t: number, y: Float64Array): number {
    return Math.abs(this.source(t)) - this.drop - y[0]!
  }

  seriesResistance(y: Float64Array): number {
    const { lamp, thermistor } = this.run
    let r = this.fixed
    if (lamp !== null) r += lampResistance(lamp, y[1]!)
    if (thermistor !== null) r += thermistorResistance(thermistor, Math.min(1000, y[2]!))
    return r
  }

  /** Rectified line current. */
  current(t: number, y: Float64Array): number {
    return this.conducting ? this.pressure(t, y) / this.seriesResistance(y) : 0
  }

  get isDrawing(): boolean {
    return this.drawing
  }

  lampOhm(y: Float64Array): number {
    return this.run.lamp === null ? 0 : lampResistance(this.run.lamp, y[1]!)
  }

  private slopes(t: number, y: Float64Array, out: Float64Array): void {
    const { run } = this
    const i = this.current(t, y)
    const v = y[0]!
    let drawn = 0
    if (this.drawing) {
      const knee = Math.max(v, run.load.knee_V)
      drawn = (this.power(t) * v) / (knee * knee)
    }
    if (run.load.shunt_ohm !== null) drawn += v / run.load.shunt_ohm
    out[0] = (i - drawn) / run.capacitance_F
    const { lamp, thermistor } = run
    if (lamp !== null) {
      const t2 = y[1]! * y[1]!
      const room4 = lamp.room_K ** 4
      const radiated = (lamp.power_W * (t2 * t2 - room4)) / (lamp.hot_K ** 4 - room4)
      out[1] = (i * i * lampResistance(lamp, y[1]!) - radiated) / lamp.heatCapacity_J_per_K
    } else out[1] = 0
    if (thermistor !== null)
      out[2] =
        (i * i * thermistorResistance(thermistor, Math.min(1000, y[2]!)) -
          thermistor.dissipation_W_per_K * (y[2]! - run.ambient_C)) /
        thermistor.heatCapacity_J_per_K
    else out[2] = 0
  }

  private power(t: number): number {
    const points = this.run.load.power
    let previous = points[0]!
    if (t <= previous.time_s) return previous.power_W
    for (const point of points) {
      if (t <= point.time_s) {
        const part = (t - previous.time_s) / (point.time_s - previous.time_s)
        return previous.power_W + part * (point.power_W - previous.power_W)
      }
      previous = point
    }
    return previous.power_W
  }

  private nextCorner(t: number): number {
    let corner = Number.POSITIVE_INFINITY
    if (this.omega > 0) {
      const quarter = Math.PI / 2
      const index = Math.floor((this.omega * t + this.phase) / quarter + 1e-7) + 1
      corner = (index * quarter - this.phase) / this.omega
    } else corner = t + 0.005
    for (const point of this.run.load.power)
      if (point.time_s > t + 1e-12) corner = Math.min(corner, point.time_s)
    return corner
  }

  /** One step into `next`; returns the error over the tolerance. */
  private step(h: number): number {
    return dormandPrince(this.derivative, this.time, h, this.y, this.next, this.stages, tolerance)
  }

  /** Shortens the step to the first event inside it, if there is one; `next` then holds the state at the event. */
  private locate(length: number): { readonly kind: EventKind; readonly length: number } | null {
    let first: { readonly kind: EventKind; readonly length: number } | null = null
    for (const kind of eventKinds) {
      const limit: number = first === null ? length : first.length
      if (first !== null) this.step(limit)
      const start = this.indicator(kind, this.time, this.y)
      const end = this.indicator(kind, this.time + limit, this.next)
      if (Number.isNaN(start) || end <= 0) continue
      let low = 0
      let lowValue = Math.min(start, 0)
      let high = limit
      let highValue = end
      for (let n = 0; n < 40 && high - low > 1e-10 && highValue > 1e-7; n++) {
        const guess = low - (lowValue * (high - low)) / (highValue - lowValue)
        const middle = n % 3 === 2 ? 0.5 * (low + high) : Math.min(high, Math.max(low, guess + 1e-12))
        this.step(middle)
        const value = this.indicator(kind, this.time + middle, this.next)
        if (value > 0) {
          high = middle
          highValue = value
        } else {
          low = middle
          lowValue = value
        }
      }
      first = { kind, length: high }
    }
    if (first !== null) this.step(first.length)
    return first
  }

  /** Positive once the event has happened; NaN where it cannot happen in this state. */
  private indicator(kind: EventKind, t: number, y: Float64Array): number {
    const gate = this.run.load.gate
    switch (kind) {
      case 'commutate':
        return this.conducting ? -this.pressure(t, y) : this.pressure(t, y)
      case 'start':
        return gate === null || this.drawing || t < this.pausedUntil_s ? Number.NaN : y[0]! - gate.start_V
      case 'stop':
        return gate === null || !this.drawing ? Number.NaN : gate.stop_V - y[0]!
    }
  }

  private toggle(kind: EventKind): void {
    if (kind === 'commutate') this.conducting = !this.conducting
    if (kind === 'start') {
      this.drawing = true
      this.starts.push(this.time)
    }
    if (kind === 'stop') {
      this.drawing = false
      this.pausedUntil_s = this.time + this.run.load.gate!.pause_s
      this.stops.push(this.time)
    }
  }
}

type EventKind = 'commutate' | 'start' | 'stop'
const eventKinds: readonly EventKind[] = ['commutate', 'start', 'stop']
