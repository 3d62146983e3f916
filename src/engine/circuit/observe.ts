import { Courses } from './courses.ts'
import { Extremes } from './extremes.ts'
import type { LinearForm } from './form.ts'
import { Integrator } from './integral.ts'
import type { Probe, Statistics } from './run.ts'
import type { Runner, Watcher } from './runner.ts'

/** Probes as outputs of the run: each linear form is one output, a product two. */
export interface ProbeSet {
  readonly names: readonly string[]
  readonly forms: readonly LinearForm[]
  /** Outputs of each probe: [output, -1] or [one factor, other factor]. */
  readonly outputs: readonly (readonly [number, number])[]
}

export function probeSet(probes: Readonly<Record<string, Probe>>): ProbeSet {
  const forms: LinearForm[] = []
  const seen = new Map<string, number>()
  const add = (form: LinearForm) => {
    const key = JSON.stringify(form)
    let number = seen.get(key)
    if (number === undefined) {
      number = forms.push(form) - 1
      seen.set(key, number)
    }
    return number
  }
  const outputs = Object.values(probes).map((probe): readonly [number, number] =>
    'product' in probe ? [add(probe.product[0]), add(probe.product[1])] : [add(probe), -1],
  )
  return { names: Object.keys(probes), forms, outputs }
}

/** Running figures of the probes of one window. */
export class Tally {
  readonly from: number
  readonly to: number
  /** Numbers of the probes counted. */
  readonly probes: readonly number[]
  readonly sum: Float64Array
  readonly square: Float64Array
  readonly maximum: Float64Array
  readonly minimum: Float64Array
  readonly timeOfMaximum: Float64Array
  readonly timeOfMinimum: Float64Array
  covered = 0

  constructor(from: number, to: number, probes: readonly number[]) {
    this.from = from
    this.to = to
    this.probes = probes
    const n = probes.length
    this.sum = new Float64Array(n)
    this.square = new Float64Array(n)
    this.maximum = new Float64Array(n).fill(Number.NEGATIVE_INFINITY)
    this.minimum = new Float64Array(n).fill(Number.POSITIVE_INFINITY)
    this.timeOfMaximum = new Float64Array(n)
    this.timeOfMinimum = new Float64Array(n)
  }

  statistics(i: number, isProduct: boolean): Statistics {
    const span = Math.max(this.covered, Number.MIN_VALUE)
    return {
      average: this.sum[i]! / span,
      rms: isProduct ? 0 : Math.sqrt(Math.max(0, this.square[i]! / span)),
      maximum: isProduct ? 0 : this.maximum[i]!,
      minimum: isProduct ? 0 : this.minimum[i]!,
      timeOfMaximum_s: this.timeOfMaximum[i]!,
      timeOfMinimum_s: this.timeOfMinimum[i]!,
      integral: this.sum[i]!,
    }
  }
}

/** Gathers exact statistics of the probes for whatever windows are open. Windows must not split a span. */
export class Observer implements Watcher {
  readonly set: ProbeSet
  readonly open: Tally[] = []
  private readonly courses: Courses
  private readonly integrator: Integrator
  private readonly extremes: Extremes
  /** Output number -> course number in use, per span. */
  private readonly courseOf: Int32Array
  private readonly first: number
  private readonly sums: Float64Array
  private readonly squares: Float64Array
  private list: readonly number[] = []
  private listKey: readonly Tally[] = []
  private linear: number[] = []
  private products: number[] = []

  /** `first` is the number of the set's first output among the run's outputs. */
  constructor(set: ProbeSet, states: number, first: number) {
    this.set = set
    this.first = first
    this.courses = new Courses(set.forms.length, states)
    this.integrator = new Integrator(states)
    this.extremes = new Extremes(set.forms.length)
    this.courseOf = new Int32Array(set.forms.length)
    this.sums = new Float64Array(set.names.length)
    this.squares = new Float64Array(set.names.length)
  }

  /** Recompute which probes are wanted when the open windows change. */
  refresh(): void {
    const wanted = new Set<number>()
    for (const tally of this.open) for (const probe of tally.probes) wanted.add(probe)
    this.list = [...wanted]
    this.linear = this.list.filter((probe) => this.set.outputs[probe]![1] < 0)
    this.products = this.list.filter((probe) => this.set.outputs[probe]![1] >= 0)
    this.listKey = this.open
  }

  span(runner: Runner, h: number): void {
    if (this.open.length === 0 || this.list.length === 0) return
    const { span, inputs, inputDegree, plan } = runner
    const { courses, extremes, integrator, courseOf } = this
    courseOf.fill(-1)
    let count = 0
    const course = (output: number): number => {
      if (courseOf[output]! < 0) {
        courses.set(count, span, plan.outputs[this.first + output]!, inputs, inputDegree)
        courseOf[output] = count++
      }
      return courseOf[output]!
    }
    for (const probe of this.linear) course(this.set.outputs[probe]![0])
    const linearCount = count
    for (let r = 0; r < linearCount; r++) {
      extremes.ceiling[r] = Number.POSITIVE_INFINITY
      extremes.floor[r] = Number.NEGATIVE_INFINITY
    }
    for (const tally of this.listKey)
      for (let i = 0; i < tally.probes.length; i++) {
        const [output, other] = this.set.outputs[tally.probes[i]!]!
        if (other >= 0) continue
        const r = courseOf[output]!
        extremes.ceiling[r] = Math.min(extremes.ceiling[r]!, tally.maximum[i]!)
        extremes.floor[r] = Math.max(extremes.floor[r]!, tally.minimum[i]!)
      }
    extremes.scan(span, courses, linearCount, h)
    for (const probe of this.products) {
      course(this.set.outputs[probe]![0])
      course(this.set.outputs[probe]![1])
    }
    span.exponentials(h)
    integrator.begin(span, h)
    for (const probe of this.list) {
      const [output, other] = this.set.outputs[probe]!
      const r = courseOf[output]!
      if (other >= 0) this.sums[probe] = integrator.product(span, courses, r, courses, courseOf[other]!)
      else {
        this.sums[probe] = integrator.integral(span, courses, r)
        this.squares[probe] = integrator.product(span, courses, r, courses, r)
      }
    }
    for (const tally of this.listKey) {
      tally.covered += h
      for (let i = 0; i < tally.probes.length; i++) {
        const probe = tally.probes[i]!
        tally.sum[i]! += this.sums[probe]!
        const [output, other] = this.set.outputs[probe]!
        if (other >= 0) continue
        tally.square[i]! += this.squares[probe]!
        const r = courseOf[output]!
        if (extremes.maximum[r]! > tally.maximum[i]!) {
          tally.maximum[i] = extremes.maximum[r]!
          tally.timeOfMaximum[i] = runner.time + extremes.timeOfMaximum[r]!
        }
        if (extremes.minimum[r]! < tally.minimum[i]!) {
          tally.minimum[i] = extremes.minimum[r]!
          tally.timeOfMinimum[i] = runner.time + extremes.timeOfMinimum[r]!
        }
      }
    }
  }
}
