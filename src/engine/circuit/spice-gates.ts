import type { Circuit } from './circuit.ts'
import type { Runner, Watcher } from './runner.ts'
import { spiceNumber } from './spice-names.ts'

/** Edges of every switch during a run. */
export class GateBook implements Watcher {
  /** Per device: first state, then times of change relative to the start. */
  readonly first: Int32Array
  readonly edges: number[][]
  private readonly present: Int32Array
  private readonly switches: number[]
  private readonly start: number

  constructor(circuit: Circuit, start: number) {
    const { devices } = circuit.layout
    this.start = start
    this.first = new Int32Array(devices.length).fill(-1)
    this.present = new Int32Array(devices.length)
    this.edges = devices.map(() => [])
    this.switches = devices.flatMap((device, d) => (device.kind === 'switch' ? [d] : []))
  }

  span(runner: Runner): void {
    for (const d of this.switches) {
      const state = runner.devices[d]!
      if (this.first[d]! < 0) this.first[d] = state
      else if (state !== this.present[d]) this.edges[d]!.push(runner.time - this.start)
      this.present[d] = state
    }
  }

  /** Gate voltage 0..1 of a switch, as a PWL source. */
  waveform(d: number): string {
    let level = Math.max(0, this.first[d]!)
    const points = [`0 ${level}`]
    let last = 0
    for (const edge of this.edges[d]!) {
      const from = Math.max(last + 1e-12, edge - 0.5e-9)
      const to = edge + 0.5e-9
      points.push(`${spiceNumber(from)} ${level}`, `${spiceNumber(to)} ${1 - level}`)
      level = 1 - level
      last = to
    }
    const rows: string[] = []
    for (let i = 0; i < points.length; i += 6) rows.push(points.slice(i, i + 6).join(' '))
    return `PWL(${rows.join('\n+ ')})`
  }
}
