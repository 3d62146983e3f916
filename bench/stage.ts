// The stage of whole designs: one repeating cycle, every corner proved in one thread (the page does it in two), and runs
// in time; then a closed-loop start and a cycle beside a general-purpose simulator (eecircuit-engine, ngspice in
// WebAssembly) in the same process, on the same circuits. Deterministic; figures of both stand beside the times.
import {
  buildCircuit,
  type Circuit,
  type LinearForm,
  spiceDeck,
  transient,
  voltage,
} from '../src/engine/circuit/index.ts'
import { demoSupplies } from '../src/engine/demo/index.ts'
import {
  cornerById,
  pointAt,
  proveSupply,
  runInTime,
  type StageParameters,
  solveCycle,
  stageParameters,
} from '../src/engine/stage/index.ts'
import { lean } from '../src/engine/stage/parameters.ts'
import { regulatedStage } from '../src/engine/stage/regulated.ts'
import type { Design } from '../src/engine/supply/design.ts'
import { evaluate, resolve } from '../src/engine/supply/evaluate.ts'

/** Best of some runs, ms. */
function best<T>(runs: number, work: () => T): { readonly ms: number; readonly value: T } {
  let ms = Number.POSITIVE_INFINITY
  let value = work()
  for (let i = 0; i < runs; i++) {
    const from = performance.now()
    value = work()
    ms = Math.min(ms, performance.now() - from)
  }
  return { ms, value }
}

const designs = demoSupplies().map((supply): Design => {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]?.message)
  return design.value
})
const corner = cornerById.get('nominal-mean-100-typical-warm')!
const parametersOf = (d: Design): StageParameters => stageParameters(d, pointAt(d, corner)!)

for (const design of designs) {
  console.log(design.supply.name)
  const cycle = best(8, () => solveCycle(parametersOf(design), 'steady'))
  if (!cycle.value.ok) throw new Error(cycle.value.message)
  console.log(
    `  one cycle   ${cycle.ms.toFixed(1)} ms, closes to ${cycle.value.residual.toExponential(1)}, drain peak ${cycle.value.statistics.drain_V!.maximum.toFixed(1)} V`,
  )
  const proof = best(4, () => proveSupply(evaluate(design))!)
  console.log(
    `  proof       ${proof.ms.toFixed(0)} ms in one thread for ${proof.value.corners.length} corners, ${proof.value.corners.filter((c) => c.ok).length} solved`,
  )
  for (const id of ['start-load', 'load-step', 'start-short'] as const) {
    const run = best(0, () => runInTime(design, id))
    const from = performance.now()
    const again = runInTime(design, id)
    const ms = performance.now() - from
    if (!run.value.ok || !again.ok) throw new Error(id)
    console.log(
      `  ${id.padEnd(12)}${ms.toFixed(0)} ms for ${(1e3 * again.end_s).toFixed(1)} ms and ${again.pulses} pulses`,
    )
  }
}

const { Simulation } = await import('eecircuit-engine')
const simulator = new Simulation()
await simulator.start()

async function simulate(text: string) {
  simulator.setNetList(text)
  const from = performance.now()
  const { data } = await simulator.runSim()
  const columns = data as { name: string; values: number[] }[]
  const time = columns[0]!.values
  return {
    ms: performance.now() - from,
    /** Average and peak over the last fifth of a millisecond, and peak over all. */
    figures: (name: string) => {
      const values = columns.find((item) => item.name === `v(probe_${name})`)!.values
      let area = 0
      let span = 0
      let peak = 0
      let lastPeak = 0
      for (let i = 1; i < time.length; i++) {
        peak = Math.max(peak, values[i]!)
        if (time[i - 1]! < time.at(-1)! - 2e-4) continue
        lastPeak = Math.max(lastPeak, values[i]!)
        area += ((values[i]! + values[i - 1]!) / 2) * (time[i]! - time[i - 1]!)
        span += time[i]! - time[i - 1]!
      }
      return { last: area / span, peak, lastPeak }
    },
  }
}

const circuitOf = (netlist: Parameters<typeof buildCircuit>[0]): Circuit => {
  const built = buildCircuit(netlist)
  if (!built.ok) throw new Error(built.problems[0]!.message)
  return built.circuit
}
const span_s = 20e-3
const probes: Record<string, LinearForm> = { vout: voltage('out'), vds: voltage('d') }
const line = (who: string, ms: number, vout: number, vds: number) =>
  console.log(
    `  ${who.padEnd(12)}${ms.toFixed(0)} ms, output ${vout.toFixed(3)} V, drain peak ${vds.toFixed(1)} V`,
  )

for (const design of [designs[0]!, designs[1]!]) {
  const p = lean(parametersOf(design))
  const netlist = regulatedStage(design, p, {
    from: 'rest',
    load: { kind: 'resistor', resistance_ohm: p.output_V / p.output_A },
  })
  console.log(`${design.supply.name}: 20 ms start into full load`)
  const ours = best(3, () => {
    const run = transient(circuitOf(netlist), {
      span_s,
      probes,
      windows: [
        { name: 'last', from_s: span_s - 2e-4, to_s: span_s, probes: ['vout'] },
        { name: 'all', from_s: 0, to_s: span_s, probes: ['vds'] },
      ],
    })
    if (!run.ok) throw new Error(run.message)
    return run.windows
  })
  line('here', ours.ms, ours.value.last!.vout!.average, ours.value.all!.vds!.maximum)
  const deck = spiceDeck(circuitOf(netlist), { span_s, probes, step_s: 10e-9 })
  if (!deck.ok) throw new Error(deck.message)
  const theirs = await simulate(deck.text)
  line('simulator', theirs.ms, theirs.figures('vout').last, theirs.figures('vds').peak)
  console.log(`  ratio       ${(theirs.ms / ours.ms).toFixed(0)}`)
}

{
  const p = parametersOf(designs[0]!)
  console.log(`${designs[0]!.supply.name}: one repeating cycle against its settled transient of 20 ms`)
  const ours = best(10, () => {
    const run = solveCycle(p, 'steady')
    if (!run.ok) throw new Error(run.message)
    return run
  })
  const { statistics } = ours.value
  console.log(
    `  here        ${ours.ms.toFixed(1)} ms, output ${statistics.output_V!.average.toFixed(4)} V, drain peak ${statistics.drain_V!.maximum.toFixed(1)} V`,
  )
  const deck = spiceDeck(ours.value.circuit, { span_s, probes, knobs: ours.value.knobs, step_s: 5e-9 })
  if (!deck.ok) throw new Error(deck.message)
  const theirs = await simulate(deck.text)
  line('simulator', theirs.ms, theirs.figures('vout').last, theirs.figures('vds').lastPeak)
  console.log(`  ratio       ${(theirs.ms / ours.ms).toFixed(0)}`)
}
