// Outside reference: eecircuit-engine 1.8.0 (ngspice in WebAssembly) runs the decks of corners of whole designs.
import { beforeAll, describe, expect, it } from 'vitest'
import { current, type LinearForm } from '../../../src/engine/circuit/index.ts'
import { demoSupplies } from '../../../src/engine/demo/index.ts'
import {
  cornerById,
  deckOf,
  pointAt,
  type StageCycleRun,
  solveCycle,
  stageForms,
  stageParameters,
} from '../../../src/engine/stage/index.ts'
import { resolve } from '../../../src/engine/supply/evaluate.ts'
import type { Supply } from '../../../src/engine/supply/supply.ts'
import { r1 } from '../r1/r1.ts'

interface Simulator {
  start(): Promise<void>
  setNetList(text: string): void
  runSim(): Promise<{ data: { name: string; values: number[] }[] }>
  getError(): string[]
}

let simulator: Simulator
beforeAll(async () => {
  const { Simulation } = await import('eecircuit-engine')
  simulator = new Simulation() as unknown as Simulator
  await simulator.start()
}, 60_000)

const cycleOf = (supply: Supply, corner: string): StageCycleRun => {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]?.message)
  const at = cornerById.get(corner)!
  const point = pointAt(design.value, at)
  if (point === null) throw new Error(`no point at ${corner}`)
  const run = solveCycle(stageParameters(design.value, point), at.kind)
  if (!run.ok) throw new Error(run.message)
  return run
}

const [charger, lights, sockets] = demoSupplies() as [Supply, Supply, Supply]
const snubbed: Supply = {
  ...charger,
  build: { ...charger.build, snubber: { resistor_ohm: 10, capacitor_F: 2.2e-9 } },
}

/** Mean of a product of two sampled waveforms, straight lines between samples, from `from_s` on. */
function meanProduct(time: number[], a: number[], b: number[], from_s: number): number {
  let area = 0
  let start = -1
  for (let i = 1; i < time.length; i++) {
    if (time[i - 1]! < from_s) continue
    if (start < 0) start = time[i - 1]!
    const h = time[i]! - time[i - 1]!
    area += (h * (2 * a[i - 1]! * b[i - 1]! + a[i - 1]! * b[i]! + a[i]! * b[i - 1]! + 2 * a[i]! * b[i]!)) / 6
  }
  return area / (time.at(-1)! - start)
}

const cycles = 10

async function compare(run: StageCycleRun): Promise<void> {
  const p = run.parameters
  const avalanche = p.clamp.style === 'avalanche'
  const probes: Record<string, LinearForm> = {
    ...stageForms(p),
    clampBranch_A: avalanche ? current('Dcl') : current('Rcl'),
  }
  const deck = deckOf(run, cycles, probes)
  if (!deck.ok) throw new Error(deck.message)
  simulator.setNetList(deck.text)
  const { data } = await simulator.runSim()
  expect(simulator.getError()).toEqual([])
  const time = data[0]!.values
  const column = (name: string) => data.find((item) => item.name === `v(probe_${name.toLowerCase()})`)!.values
  const one = time.map(() => 1)
  const from_s = run.period_s
  const agree = (name: string, got: number, want: number, tolerance: number) =>
    expect(Math.abs(got / want - 1), `${name}: ${got} against ${want}`).toBeLessThan(tolerance)
  const mean = (name: string) => meanProduct(time, column(name), one, from_s)
  const rms = (name: string) => Math.sqrt(meanProduct(time, column(name), column(name), from_s))
  const peak = (name: string) =>
    column(name).reduce((a, b, i) => (time[i]! < from_s ? a : Math.max(a, b)), -1e9)
  const q = run.statistics
  agree('output', q.output_V!.average, mean('output_V'), 0.003)
  agree('drain peak', q.drain_V!.maximum, peak('drain_V'), 0.01)
  agree('rectifier reverse peak', q.reverse_V!.maximum, peak('reverse_V'), 0.01)
  agree('primary rms', q.primary_A!.rms, rms('primary_A'), 0.01)
  agree('secondary rms', q.secondary_A!.rms, rms('secondary_A'), 0.01)
  agree('magnetising peak', q.magnetising_A!.maximum, peak('magnetising_A'), 0.01)
  const clamp_W = meanProduct(time, column('clamp_V'), column('clampBranch_A'), from_s)
  // an avalanche clamp that is hardly touched carries milliwatts, which no tolerance of a ratio suits
  if (clamp_W > 0.05) agree('clamp power', q.clamp_W!.average, clamp_W, 0.02)
}

describe('corners of designs agree with a general-purpose simulator', () => {
  it.each([
    ['charger, continuous, lowest valley', charger, 'minimum-valley-100-typical-warm'],
    ['charger, discontinuous, highest crest, a tenth of the load', charger, 'maximum-crest-10-typical-cold'],
    ['charger with a snubber, most inductance', snubbed, 'nominal-mean-100-typical-warm'],
    ['charger at its greatest current limit', charger, 'overload-maximum'],
    ['work lights with avalanche clamp', lights, 'maximum-crest-100-flux-warm'],
    ['phone sockets, half load', sockets, 'nominal-mean-50-typical-warm'],
    ['phone sockets, least inductance', sockets, 'minimum-valley-100-power-cold'],
    ['R1, continuous at its bulk valley', r1(), 'minimum-valley-100-typical-warm'],
    ['R1, discontinuous at its crest', r1(), 'maximum-crest-100-flux-warm'],
  ] as const)('%s', async (_, supply, corner) => {
    await compare(cycleOf(supply, corner))
  })
})
