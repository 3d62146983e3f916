// The switched circuit against a general-purpose simulator (eecircuit-engine, ngspice in WebAssembly) in the same
// process: a 20 ms closed-loop start into full load, and one repeating cycle against its settled transient.
// Deterministic; figures of both are printed beside the times.
import {
  buildCircuit,
  type Circuit,
  type Controller,
  current,
  type LinearForm,
  type Netlist,
  spiceDeck,
  steadyState,
  transient,
  voltage,
} from '../src/engine/circuit/index.ts'
import cases from '../test/reference/circuits/cases.json'
import { closedLoop, dutyForm, openLoop } from '../test/reference/circuits/published.ts'

const parametersOf = (id: string): Record<string, number> =>
  (cases as { id: string; parameters: Record<string, number> }[]).find((item) => item.id === id)!.parameters

const build = (netlist: Netlist): Circuit => {
  const built = buildCircuit(netlist)
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  return built.circuit
}

/** Voltage-mode modulator with a cycle-by-cycle current limit of 1.5 A after 250 ns. */
const switcher: Controller = {
  name: 'switcher',
  watches: {
    low: { terms: dutyForm.terms.map(({ gain, of }) => ({ gain: -gain, of })), offset: -dutyForm.offset },
    primary: current('Rpri'),
  },
  memory: {},
  start: (io) => io.timerAt('clock', 0),
  react: (event, io) => {
    if (event === 'clock') {
      io.timerAt('clock', io.time_s + 1e-5)
      if (io.read('low') >= 0) return
      io.set('S1', true)
      io.arm('low', { slope_per_s: 1e5 })
      io.timerAt('most', io.time_s + 0.65e-5)
      io.timerAt('blanked', io.time_s + 250e-9)
      return
    }
    if (event === 'blanked') {
      io.arm('primary', { offset: -1.5 })
      return
    }
    io.set('S1', false)
    for (const watch of ['low', 'primary']) io.disarm(watch)
    for (const timer of ['most', 'blanked']) io.cancel(timer)
  },
}

/** The published closed-loop stage from cold into 30 W. */
function startUp(): Netlist {
  const whole = closedLoop(parametersOf('O5_closed_loop'))
  return {
    title: 'closed-loop start',
    elements: whole.elements
      .filter(({ name }) => !['Sload', 'Rheavy', 'Rlight'].includes(name))
      .map((element) => {
        if (element.kind === 'capacitor' || element.kind === 'diode') {
          const { initial_V: _, ...cold } = element
          return cold
        }
        return element
      })
      .concat([{ kind: 'resistor', name: 'Rload', a: 'out', b: '0', resistance_ohm: 4.8 }]),
    controllers: [switcher],
  }
}

const { Simulation } = await import('eecircuit-engine')
const simulator = new Simulation()
await simulator.start()

async function simulate(
  text: string,
): Promise<{ ms: number; column: (name: string) => number[]; time: number[] }> {
  simulator.setNetList(text)
  const from = performance.now()
  const result = await simulator.runSim()
  const ms = performance.now() - from
  const columns = result.data as { name: string; values: number[] }[]
  return {
    ms,
    time: columns[0]!.values,
    column: (name) => columns.find((item) => item.name === `v(probe_${name})`)!.values,
  }
}

/** Average over the last millisecond and peak over all. */
function figures(time: number[], values: number[]): { last: number; peak: number } {
  const from = time.at(-1)! - 1e-3
  let area = 0
  let span = 0
  let peak = 0
  for (let i = 1; i < time.length; i++) {
    peak = Math.max(peak, values[i]!)
    if (time[i - 1]! < from) continue
    area += ((values[i]! + values[i - 1]!) / 2) * (time[i]! - time[i - 1]!)
    span += time[i]! - time[i - 1]!
  }
  return { last: area / span, peak }
}

/** Best of some runs, ms. */
function best<T>(runs: number, work: () => T): { ms: number; value: T } {
  let ms = Number.POSITIVE_INFINITY
  let value = work()
  for (let i = 0; i < runs; i++) {
    const from = performance.now()
    value = work()
    ms = Math.min(ms, performance.now() - from)
  }
  return { ms, value }
}

const probes: Record<string, LinearForm> = { vout: voltage('out'), vds: voltage('d') }

{
  const span_s = 20e-3
  const netlist = startUp()
  const ours = best(4, () => {
    const run = transient(build(netlist), {
      span_s,
      probes,
      windows: [
        { name: 'last', from_s: 19e-3, to_s: 20e-3, probes: ['vout'] },
        { name: 'all', from_s: 0, to_s: 20e-3, probes: ['vds'] },
      ],
    })
    if (!run.ok) throw new Error(run.message)
    return run
  })
  const deck = spiceDeck(build(netlist), { span_s, probes, step_s: 10e-9 })
  if (!deck.ok) throw new Error(deck.message)
  const theirs = await simulate(deck.text)
  const vout = figures(theirs.time, theirs.column('vout'))
  const vds = figures(theirs.time, theirs.column('vds'))
  const { windows } = ours.value
  console.log('20 ms closed-loop start into 30 W')
  console.log(
    `  here       ${ours.ms.toFixed(0)} ms, output ${windows.last!.vout!.average.toFixed(4)} V, drain peak ${windows.all!.vds!.maximum.toFixed(1)} V, ${ours.value.events} events`,
  )
  console.log(
    `  simulator  ${theirs.ms.toFixed(0)} ms, output ${vout.last.toFixed(4)} V, drain peak ${vds.peak.toFixed(1)} V`,
  )
  console.log(`  ratio      ${(theirs.ms / ours.ms).toFixed(0)}`)
}

{
  const netlist = openLoop(parametersOf('O1_dcm_rcd'))
  const ours = best(20, () => {
    const cycle = steadyState(build(netlist), { period_s: 1e-5, probes })
    if (!cycle.ok) throw new Error(cycle.message)
    return cycle
  })
  const deck = spiceDeck(build(netlist), { span_s: 20e-3, probes, step_s: 5e-9 })
  if (!deck.ok) throw new Error(deck.message)
  const theirs = await simulate(deck.text)
  const vout = figures(theirs.time, theirs.column('vout'))
  console.log('one repeating cycle against its settled transient of 20 ms')
  console.log(
    `  here       ${ours.ms.toFixed(2)} ms, output ${ours.value.statistics.vout!.average.toFixed(4)} V, closes to ${ours.value.residual.toExponential(1)}`,
  )
  console.log(`  simulator  ${theirs.ms.toFixed(0)} ms, output ${vout.last.toFixed(4)} V`)
  console.log(`  ratio      ${(theirs.ms / ours.ms).toFixed(0)}`)
}
