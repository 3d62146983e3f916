import { AuditBook } from './audit.ts'
import { type Circuit, unknownNames } from './circuit.ts'
import { Observer, type ProbeSet, probeSet, Tally } from './observe.ts'
import type { RunFailure } from './problem.ts'
import { Recorder } from './record.ts'
import type { CycleColumns, Probe, Statistics, TransientOptions, TransientResult } from './run.ts'
import { Runner } from './runner.ts'
import { asFailure } from './stop.ts'

/**
 * Follow a circuit in time for `span_s`. Statistics are exact integrals and extremes of the piecewise linear
 * solution; nothing is stored but what is asked for. A run that cannot go on returns a typed failure.
 */
export function transient(circuit: Circuit, options: TransientOptions): TransientResult {
  const bad = checkOptions(circuit, options)
  if (bad !== undefined) return bad
  const audit = options.audit === true ? new AuditBook(circuit) : undefined
  const probes: Record<string, Probe> = { ...options.probes }
  const set = probeSet(probes)
  const states = circuit.structure.free.length
  let runner: Runner
  try {
    runner = new Runner(circuit, options.knobs, [...set.forms, ...(audit?.set.forms ?? [])], options.limits)
    if (options.start === undefined) runner.startCold()
    else runner.resume(options.start)
  } catch (error) {
    return asFailure(error, options.start?.time_s ?? 0)
  }
  const start = runner.time
  const end = start + options.span_s
  const observer = new Observer(set, states, 0)
  runner.watchers.push(observer)
  const numbers = (names: readonly string[] | undefined) =>
    names === undefined ? set.names.map((_, i) => i) : names.map((name) => set.names.indexOf(name))
  const tallies = (options.windows ?? []).map(
    (window) => new Tally(Math.max(start, window.from_s), Math.min(end, window.to_s), numbers(window.probes)),
  )
  const cycles = cycleTallies(options, start, end, numbers(options.cycles?.probes))
  const waves = options.waveforms
  let recorder: Recorder | undefined
  if (waves !== undefined) {
    recorder = new Recorder(
      set,
      numbers(waves.probes),
      states,
      waves.pointsPerRing ?? 24,
      waves.points ?? 2e6,
    )
    runner.watchers.push(recorder)
  }
  if (audit !== undefined) audit.attach(runner, set.forms.length)

  const edges = [
    ...tallies.flatMap((tally) => [tally.from, tally.to]),
    ...(waves ? [waves.from_s, waves.to_s] : []),
  ]
    .filter((edge) => edge > start && edge < end)
    .sort((a, b) => a - b)
  edges.push(end)
  const poll = () => {
    options.progress?.((runner.time - start) / options.span_s)
    if (options.cancelled?.() === true) runner.stop('cancelled', `cancelled at ${runner.time} s`)
  }
  let edgeIndex = 0
  let cycleIndex = 0
  while (runner.time < end) {
    while (edges[edgeIndex]! <= runner.time) edgeIndex++
    const cycle = cycles[cycleIndex]
    observer.open.length = 0
    for (const tally of tallies)
      if (tally.from <= runner.time && runner.time < tally.to) observer.open.push(tally)
    if (cycle !== undefined) observer.open.push(cycle)
    observer.refresh()
    if (recorder !== undefined) recorder.active = waves!.from_s <= runner.time && runner.time < waves!.to_s
    const failure = runner.runTo(Math.min(edges[edgeIndex]!, cycle?.to ?? end), poll)
    if (failure !== undefined) return failure
    if (cycle !== undefined && runner.time >= cycle.to) cycleIndex++
  }
  const windows: Record<string, Record<string, Statistics>> = {}
  ;(options.windows ?? []).forEach((window, w) => {
    windows[window.name] = readTally(set, tallies[w]!)
  })
  return {
    ok: true,
    windows,
    cycles: cycleColumns(set, cycles),
    waveforms: recorder?.result(),
    audit: audit?.close(runner, options.span_s),
    final: runner.snapshot(),
    events: runner.events,
    steps: runner.search.steps,
    topologies: circuit.topologies.size,
  }
}

/** Figures of one window by probe name. */
export function readTally(set: ProbeSet, tally: Tally): Record<string, Statistics> {
  const out: Record<string, Statistics> = {}
  tally.probes.forEach((probe, i) => {
    out[set.names[probe]!] = tally.statistics(i, set.outputs[probe]![1] >= 0)
  })
  return out
}

function cycleTallies(
  options: TransientOptions,
  start: number,
  end: number,
  probes: readonly number[],
): Tally[] {
  if (options.cycles === undefined) return []
  const period = options.cycles.period_s
  const count = Math.floor((end - start) / period + 1e-9)
  return Array.from(
    { length: count },
    (_, i) => new Tally(start + i * period, start + (i + 1) * period, probes),
  )
}

function cycleColumns(set: ProbeSet, cycles: readonly Tally[]): Record<string, CycleColumns> {
  const out: Record<string, CycleColumns> = {}
  const probes = cycles[0]?.probes ?? []
  probes.forEach((probe, i) => {
    const column = (pick: (figures: Statistics) => number) =>
      Float64Array.from(cycles, (tally) => pick(tally.statistics(i, set.outputs[probe]![1] >= 0)))
    out[set.names[probe]!] = {
      average: column((figures) => figures.average),
      rms: column((figures) => figures.rms),
      maximum: column((figures) => figures.maximum),
      minimum: column((figures) => figures.minimum),
    }
  })
  return out
}

function checkOptions(circuit: Circuit, options: TransientOptions): RunFailure | undefined {
  const fail = (message: string): RunFailure => ({ ok: false, code: 'bad-option', message, time_s: 0 })
  if (!(options.span_s > 0 && Number.isFinite(options.span_s)))
    return fail(`span_s is ${options.span_s}, must be positive and finite`)
  const period = options.cycles?.period_s
  if (period !== undefined && !(period > 0 && options.span_s / period < 1e6))
    return fail(`cycles.period_s is ${period}, must be positive and give at most a million cycles`)
  const known = Object.keys(options.probes ?? {})
  const asked = [
    ...(options.windows ?? []).flatMap((window) => window.probes ?? []),
    ...(options.cycles?.probes ?? []),
    ...(options.waveforms?.probes ?? []),
  ]
  for (const name of asked) if (!known.includes(name)) return fail(`no probe called ${name}`)
  return checkProbes(circuit, options.probes ?? {}, options.knobs)
}

/** Probes and knobs that name what the circuit lacks. */
export function checkProbes(
  circuit: Circuit,
  probes: Readonly<Record<string, Probe>>,
  knobs: Readonly<Record<string, number>> | undefined,
): RunFailure | undefined {
  const fail = (message: string): RunFailure => ({ ok: false, code: 'bad-option', message, time_s: 0 })
  for (const [name, probe] of Object.entries(probes))
    for (const form of 'product' in probe ? probe.product : [probe]) {
      const problem = unknownNames(circuit.layout, form, `probe ${name}`)[0]
      if (problem !== undefined) return fail(problem.message)
    }
  for (const [name, value] of Object.entries(knobs ?? {})) {
    if (circuit.netlist.knobs?.[name] === undefined) return fail(`no knob called ${name}`)
    if (!Number.isFinite(value)) return fail(`knob ${name} is ${value}, must be finite`)
  }
  return undefined
}
