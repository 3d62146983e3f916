import type { Circuit } from './circuit.ts'
import type { LinearForm } from './form.ts'
import type { RunFailure } from './problem.ts'
import type { CircuitState } from './run.ts'
import { Runner } from './runner.ts'
import { GateBook } from './spice-gates.ts'
import { expression, SpiceNames, spiceNumber } from './spice-names.ts'
import { SpiceWriter } from './spice-writer.ts'
import { asFailure } from './stop.ts'

export interface SpiceOptions {
  readonly span_s: number
  /** Start from this state (a solved cycle, say); from the initial values of the netlist when left out. */
  readonly state?: CircuitState
  readonly knobs?: Readonly<Record<string, number>>
  /** Forms written as voltages of nodes `probe_<name>` and saved. */
  readonly probes?: Readonly<Record<string, LinearForm>>
  /** Largest step of the simulator. Default span / 50000. */
  readonly step_s?: number
}

export type SpiceDeck = { readonly ok: true; readonly text: string } | RunFailure

/**
 * The circuit as a plain SPICE deck with values as solved. Diodes are a DC source and an exponential diode with
 * N = 0.05, whose 27 mV is taken off the source. Switches follow the edges that the controllers gave them in a
 * run from the same state; edges are 1 ns wide and centred.
 */
export function spiceDeck(circuit: Circuit, options: SpiceOptions): SpiceDeck {
  try {
    return writeDeck(circuit, options)
  } catch (error) {
    return asFailure(error, options.state?.time_s ?? 0)
  }
}

function writeDeck(circuit: Circuit, options: SpiceOptions): SpiceDeck {
  const runner = new Runner(circuit, options.knobs, [], undefined)
  if (options.state === undefined) runner.startCold()
  else runner.resume(options.state)
  const start = runner.time
  const gates = new GateBook(circuit, start)
  const begin = runner.snapshot()
  runner.watchers.push(gates)
  const failure = runner.runTo(start + options.span_s)
  if (failure !== undefined) return failure
  const names = new SpiceNames(circuit.netlist)
  const writer = new SpiceWriter(circuit, begin, names, gates, start, runner.knobs)
  for (const form of Object.values(options.probes ?? {})) names.noteCurrents(form)
  for (const element of circuit.netlist.elements)
    if (element.kind.startsWith('controlled') && 'value' in element)
      for (const form of [element.value, ...(element.bends ?? []).map((bend) => bend.of)])
        names.noteCurrents(form)
  for (const element of circuit.netlist.elements) writer.element(element)
  const saved: string[] = []
  for (const [name, form] of Object.entries(options.probes ?? {})) {
    const node = `probe_${name.toLowerCase()}`
    writer.line(`B${node} ${node} 0 V = ${expression(names, form)}`)
    saved.push(`v(${node})`)
  }
  const step = options.step_s ?? options.span_s / 50000
  const text = [
    `* ${circuit.netlist.title.replace(/\s+/g, ' ')}`,
    '.options reltol=1e-4 abstol=1n vntol=10u chgtol=1e-15 method=trap',
    ...writer.lines,
    `.tran ${spiceNumber(step * 4)} ${spiceNumber(options.span_s)} 0 ${spiceNumber(step)} uic`,
    ...(saved.length > 0 ? [`.save ${saved.join(' ')}`] : []),
    '.end',
    '',
  ].join('\n')
  return { ok: true, text }
}
