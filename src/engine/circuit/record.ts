import { Courses } from './courses.ts'
import type { ProbeSet } from './observe.ts'
import type { Waveforms } from './run.ts'
import type { Runner, Watcher } from './runner.ts'
import { sampleStep } from './search.ts'

/**
 * Samples waveforms: both sides of every corner, and enough points between for the fastest ring still alive.
 */
export class Recorder implements Watcher {
  active = false
  private readonly set: ProbeSet
  private readonly probes: readonly number[]
  private readonly perRing: number
  private readonly most: number
  private readonly courses: Courses
  private readonly list: Int32Array
  private time: Float64Array
  private columns: Float64Array[]
  private count = 0

  constructor(set: ProbeSet, probes: readonly number[], states: number, perRing: number, most: number) {
    this.set = set
    this.probes = probes
    this.perRing = perRing
    this.most = most
    this.courses = new Courses(probes.length * 2, states)
    this.list = new Int32Array(probes.length * 2)
    for (let i = 0; i < this.list.length; i++) this.list[i] = i
    this.time = new Float64Array(1024)
    this.columns = probes.map(() => new Float64Array(1024))
  }

  span(runner: Runner, h: number): void {
    if (!this.active) return
    const { span, plan, inputs, inputDegree } = runner
    let courses = 0
    for (const probe of this.probes)
      for (const output of this.set.outputs[probe]!)
        if (output >= 0) this.courses.set(courses++, span, plan.outputs[output]!, inputs, inputDegree)
    let s = 0
    this.point(runner, 0)
    while (s < h) {
      // sampleStep gives an eighth of a ring (0.8 rad)
      span.decays(s)
      const step = sampleStep(span, this.courses, this.list, courses, 1e-7) * (7.85 / this.perRing)
      s = Math.min(h, s + Math.min(step, h / 4))
      this.point(runner, s)
    }
  }

  private point(runner: Runner, s: number): void {
    const { span } = runner
    if (this.count >= this.most)
      runner.stop('step-budget', `waveforms need more than ${this.most} points by ${runner.time} s`)
    if (this.count === this.time.length) {
      const grow = (column: Float64Array) => {
        const wider = new Float64Array(column.length * 2)
        wider.set(column)
        return wider
      }
      this.time = grow(this.time)
      this.columns = this.columns.map(grow)
    }
    span.exponentials(s)
    this.time[this.count] = runner.time + s
    let r = 0
    this.probes.forEach((probe, i) => {
      let value = this.courses.value(r++, span, s)
      if (this.set.outputs[probe]![1] >= 0) value *= this.courses.value(r++, span, s)
      this.columns[i]![this.count] = value
    })
    this.count++
  }

  result(): Waveforms {
    const columns: Record<string, Float64Array> = {}
    this.probes.forEach((probe, i) => {
      columns[this.set.names[probe]!] = this.columns[i]!.slice(0, this.count)
    })
    return { time_s: this.time.slice(0, this.count), columns }
  }
}
