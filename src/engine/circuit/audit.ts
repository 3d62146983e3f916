import type { Circuit } from './circuit.ts'
import { current, difference, type LinearForm, voltage } from './form.ts'
import { Observer, type ProbeSet, probeSet, Tally } from './observe.ts'
import type { EnergyAudit, Probe } from './run.ts'
import type { Runner } from './runner.ts'

/** Accounts for the energy of a run: supplied by sources, dissipated elsewhere, stored in C and L. */
export class AuditBook {
  readonly set: ProbeSet
  private readonly isSource: boolean[]
  private readonly circuit: Circuit
  private tally: Tally
  private startStored = 0

  constructor(circuit: Circuit) {
    this.circuit = circuit
    const probes: Record<string, Probe> = {}
    this.isSource = []
    for (const element of circuit.netlist.elements) {
      if (['capacitor', 'inductor', 'saturating-inductor', 'coupled-inductors'].includes(element.kind))
        continue
      const ends = 'windings' in element ? element.windings : [element]
      ends.forEach((end, winding) => {
        const across: LinearForm = difference(voltage(end.a), voltage(end.b))
        probes[`${element.name}.${winding}`] = { product: [across, current(element.name, winding)] }
        this.isSource.push(element.kind.endsWith('source') || element.kind.startsWith('controlled'))
      })
    }
    this.set = probeSet(probes)
    this.tally = new Tally(0, 0, [])
  }

  attach(runner: Runner, firstOutput: number): void {
    const observer = new Observer(this.set, this.circuit.structure.free.length, firstOutput)
    this.tally = new Tally(
      0,
      Number.POSITIVE_INFINITY,
      this.set.names.map((_, i) => i),
    )
    observer.open.push(this.tally)
    observer.refresh()
    runner.watchers.push(observer)
    this.startStored = this.stored(runner.snapshot().values)
  }

  /** Energy in capacitors and inductors, J. */
  private stored(values: Float64Array): number {
    const { layout } = this.circuit
    const nC = layout.caps.length
    const nL = layout.inductors.length
    let total = 0
    layout.caps.forEach((cap, c) => {
      total += 0.5 * cap.farad * values[c]! ** 2
    })
    const saturating = new Set<number>()
    for (const device of layout.devices) {
      if (device.kind !== 'core') continue
      saturating.add(device.inductor)
      const amps = Math.abs(values[nC + device.inductor]!)
      const middle = (device.edges.length / 2) | 0
      let from = 0
      for (let s = middle; s <= device.edges.length; s++) {
        const to = Math.min(amps, device.edges[s] ?? Number.POSITIVE_INFINITY)
        if (to > from) total += 0.5 * device.inductance[s]! * (to * to - from * from)
        from = Math.max(from, to)
      }
    }
    for (let i = 0; i < nL; i++)
      for (let j = 0; j < nL; j++)
        if (!saturating.has(i))
          total += 0.5 * layout.inductance[i * nL + j]! * values[nC + i]! * values[nC + j]!
    return total
  }

  close(runner: Runner, span_s: number): EnergyAudit {
    let supplied = 0
    let dissipated = 0
    let turned = 0
    this.tally.sum.forEach((energy, i) => {
      if (this.isSource[i]) supplied -= energy
      else dissipated += energy
      turned += Math.abs(energy)
    })
    const held = this.stored(runner.snapshot().values)
    const stored = held - this.startStored
    const error = supplied - dissipated - stored
    return {
      supplied_J: supplied,
      dissipated_J: dissipated,
      stored_J: stored,
      relativeError: error === 0 ? 0 : error / Math.max(turned, held, this.startStored),
      error_W: error / span_s,
    }
  }
}
