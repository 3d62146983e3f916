import { Courses } from './courses.ts'
import { Integrator } from './integral.ts'
import type { SlowElement } from './netlist.ts'
import type { OutputRow } from './output-row.ts'
import type { Span } from './span.ts'
import { RunStop } from './stop.ts'

/**
 * Slow elements over one step: each is a conductance and a current source, set for the middle of the step from
 * the means of the steps before (second order), and its own states are advanced with the exact mean power.
 */
export class SlowSet {
  readonly elements: readonly SlowElement[]
  readonly own: number[][]
  readonly conductance: Float64Array
  readonly current: Float64Array
  /** Integrals over the present step: voltage, current, power. */
  private readonly volts: Float64Array
  private readonly amps: Float64Array
  private readonly watts: Float64Array
  private readonly course: Courses
  private readonly integrator: Integrator
  /** Start and end of the present step. */
  from_s = 0
  to_s = 0
  private step: number
  private readonly longest: number
  private readonly mean: Float64Array
  private readonly slope: Float64Array
  private readonly power: Float64Array
  private readonly powerSlope: Float64Array
  private readonly meanCurrent: Float64Array
  private lastMid = 0
  private steps = 0

  constructor(elements: readonly SlowElement[], states: number) {
    const n = elements.length
    this.course = new Courses(1, states)
    this.integrator = new Integrator(states)
    this.elements = elements
    this.own = elements.map((element) => [...element.initial])
    this.conductance = new Float64Array(n)
    this.current = new Float64Array(n)
    this.volts = new Float64Array(n)
    this.amps = new Float64Array(n)
    this.watts = new Float64Array(n)
    this.mean = new Float64Array(n)
    this.slope = new Float64Array(n)
    this.power = new Float64Array(n)
    this.powerSlope = new Float64Array(n)
    this.meanCurrent = new Float64Array(n)
    this.longest = Math.min(Number.POSITIVE_INFINITY, ...elements.map((element) => element.step_s))
    this.step = this.longest / 64
    elements.forEach((element, i) => {
      this.conductance[i] = firstConductance(element)
    })
  }

  /** Begin at a time with present voltages. Returns true when a conductance changed. */
  begin(time_s: number, voltage: (i: number) => number): boolean {
    if (this.steps === 0) for (let i = 0; i < this.elements.length; i++) this.mean[i] = voltage(i)
    return this.open(time_s)
  }

  /** Add the integrals over 0..h of a span, given the voltages of the elements as outputs. */
  accumulate(
    span: Span,
    rows: readonly OutputRow[],
    inputs: Float64Array,
    inputDegree: number,
    h: number,
  ): void {
    span.exponentials(h)
    this.integrator.begin(span, h)
    const { course, integrator } = this
    for (let i = 0; i < rows.length; i++) {
      course.set(0, span, rows[i]!, inputs, inputDegree)
      const volts = integrator.integral(span, course, 0)
      const squared = integrator.product(span, course, 0, course, 0)
      const g = this.conductance[i]!
      const j = this.current[i]!
      this.volts[i]! += volts
      this.amps[i]! += g * volts + j * h
      this.watts[i]! += g * squared + j * volts
    }
  }

  private open(time_s: number): boolean {
    this.from_s = time_s
    this.to_s = time_s + this.step
    const mid = time_s + this.step / 2
    let changed = false
    this.elements.forEach((element, i) => {
      const predicted = this.steps < 2 ? this.mean[i]! : this.mean[i]! + this.slope[i]! * (mid - this.lastMid)
      // power met in the first half of the step, extrapolated
      const quarter = time_s + this.step / 4 - this.lastMid
      const power = Math.max(0, this.power[i]! + (this.steps < 2 ? 0 : this.powerSlope[i]! * quarter))
      const means = { power_W: power, voltage_V: this.mean[i]!, current_A: this.meanCurrent[i]! }
      const rate = this.steps > 0 ? element.rate?.(this.own[i]!, means) : undefined
      const midOwn = this.own[i]!.map((value, j) => value + ((rate?.[j] ?? 0) * this.step) / 2)
      const law = element.law(midOwn, mid, predicted)
      if (!Number.isFinite(law.conductance_S) || !Number.isFinite(law.current_A))
        throw new RunStop(
          'bad-option',
          `${element.name}: law gives ${law.conductance_S} S and ${law.current_A} A at ${predicted} V`,
        )
      const present = this.conductance[i]!
      const hold = element.hold ?? 0
      if (Math.abs(law.conductance_S - present) > hold * Math.abs(present)) {
        this.conductance[i] = law.conductance_S
        changed = changed || law.conductance_S !== present
      }
      this.current[i] = law.current_A + (law.conductance_S - this.conductance[i]!) * predicted
    })
    this.volts.fill(0)
    this.amps.fill(0)
    this.watts.fill(0)
    return changed
  }

  /** Close the step at its end, choose the next. Returns true when a conductance changed. */
  advance(): boolean {
    const h = this.to_s - this.from_s
    const mid = (this.to_s + this.from_s) / 2
    let change = 0
    this.elements.forEach((element, i) => {
      const mean = this.volts[i]! / h
      if (this.steps > 0) this.slope[i] = (mean - this.mean[i]!) / (mid - this.lastMid)
      this.mean[i] = mean
      const power = this.watts[i]! / h
      if (this.steps > 0) this.powerSlope[i] = (power - this.power[i]!) / (mid - this.lastMid)
      this.power[i] = power
      this.meanCurrent[i] = this.amps[i]! / h
      const own = this.own[i]!
      const before = element.law(own, mid, mean)
      const means = { power_W: this.power[i]!, voltage_V: mean, current_A: this.meanCurrent[i]! }
      const first = element.rate?.(own, means)
      if (element.rate !== undefined && first !== undefined) {
        const midOwn = own.map((value, j) => value + (first[j]! * h) / 2)
        const rate = element.rate(midOwn, means)
        for (let j = 0; j < own.length; j++) own[j]! += rate[j]! * h
      }
      const after = element.law(own, this.to_s, mean)
      const assumed = this.conductance[i]! * mean + this.current[i]!
      const wanted = element.law(own, mid, mean)
      const real = wanted.conductance_S * mean + wanted.current_A
      const size = Math.abs(real) + 0.01 * Math.abs(mean * wanted.conductance_S) + 1e-12
      // drift of own states counts in full, error of the predicted current three times
      const drift = Math.abs(after.conductance_S - before.conductance_S) / Math.abs(before.conductance_S)
      change = Math.max(change, element.rate === undefined ? 0 : drift, (3 * Math.abs(real - assumed)) / size)
    })
    this.lastMid = mid
    this.steps++
    const factor = Math.min(2, Math.max(0.3, 0.003 / Math.max(change, 1e-6)))
    this.step = Math.min(this.longest, Math.max(this.longest * 1e-4, this.step * factor))
    return this.open(this.to_s)
  }

  restore(own: readonly (readonly number[])[]): void {
    own.forEach((values, i) => {
      this.own[i] = [...values]
    })
  }
}

/** Conductance before the first step, when the voltage is not known yet: the law at 0 V, if it has a value there. */
export function firstConductance(element: SlowElement): number {
  const { conductance_S } = element.law(element.initial, 0, 0)
  return Number.isFinite(conductance_S) ? conductance_S : 1e-6
}
