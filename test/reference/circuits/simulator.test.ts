// Outside reference: eecircuit-engine 1.8.0 (ngspice in WebAssembly) runs the decks exported here.
import { beforeAll, describe, expect, it } from 'vitest'
import {
  buildCircuit,
  type Circuit,
  type CircuitState,
  current,
  difference,
  type Element,
  fixedDuty,
  type LinearForm,
  type Netlist,
  spiceDeck,
  steadyState,
  transient,
  voltage,
} from '../../../src/engine/circuit/index.ts'
import cases from './cases.json'
import { closedLoop, currentLimited, openLoop } from './published.ts'
import { load, stage } from './stage.ts'

interface Simulator {
  start(): Promise<void>
  setNetList(text: string): void
  runSim(): Promise<{ variableNames: string[]; data: { name: string; values: number[] }[] }>
  getError(): string[]
}

let simulator: Simulator
beforeAll(async () => {
  const { Simulation } = await import('eecircuit-engine')
  simulator = new Simulation() as unknown as Simulator
  await simulator.start()
}, 60_000)

const parametersOf = (id: string): Record<string, number> =>
  (cases as { id: string; parameters: Record<string, number> }[]).find((item) => item.id === id)!.parameters

const build = (netlist: Netlist): Circuit => {
  const built = buildCircuit(netlist)
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  return built.circuit
}

/** The repeating cycle of a circuit at 100 kHz. */
const cycle = (circuit: Circuit): CircuitState => {
  const steady = steadyState(circuit, { period_s: 1e-5 })
  if (!steady.ok) throw new Error(steady.message)
  return steady.state
}

interface Figures {
  readonly average: number
  readonly rms: number
  readonly maximum: number
}

/** Figures of a sampled waveform, straight lines between samples, from `from_s` on. */
function measure(time: number[], value: number[], from_s: number): Figures {
  let area = 0
  let square = 0
  let maximum = Number.NEGATIVE_INFINITY
  let start = -1
  for (let i = 1; i < time.length; i++) {
    if (time[i - 1]! < from_s) continue
    if (start < 0) start = time[i - 1]!
    const h = time[i]! - time[i - 1]!
    const a = value[i - 1]!
    const b = value[i]!
    area += (h * (a + b)) / 2
    square += (h * (a * a + a * b + b * b)) / 3
    maximum = Math.max(maximum, a, b)
  }
  const span = time.at(-1)! - start
  return { average: area / span, rms: Math.sqrt(square / span), maximum }
}

interface Check {
  readonly figure: keyof Figures
  readonly form: LinearForm
  readonly tolerance: number
}

const volts = (form: LinearForm): Check => ({ figure: 'average', form, tolerance: 0.003 })
const peak = (form: LinearForm): Check => ({ figure: 'maximum', form, tolerance: 0.01 })
const rms = (form: LinearForm): Check => ({ figure: 'rms', form, tolerance: 0.01 })

/** Run `span_s` from a state here and there, and compare the figures after the first cycle. */
async function compare(circuit: Circuit, state: CircuitState, checks: Record<string, Check>, span_s = 3e-4) {
  const probes = Object.fromEntries(Object.entries(checks).map(([name, check]) => [name, check.form]))
  const skip = 1e-5
  const ours = transient(circuit, {
    span_s,
    start: state,
    probes,
    windows: [{ name: 'all', from_s: state.time_s + skip, to_s: state.time_s + span_s }],
  })
  const deck = spiceDeck(circuit, { span_s, state, probes, step_s: 5e-9 })
  if (!ours.ok) throw new Error(ours.message)
  if (!deck.ok) throw new Error(deck.message)
  simulator.setNetList(deck.text)
  const theirs = await simulator.runSim()
  expect(simulator.getError()).toEqual([])
  const time = theirs.data[0]!.values
  for (const [name, { figure, tolerance }] of Object.entries(checks)) {
    const column = theirs.data.find((item) => item.name === `v(probe_${name.toLowerCase()})`)!
    const want = measure(time, column.values, skip)[figure]
    const got = ours.windows.all![name]![figure]
    expect(Math.abs(got / want - 1), `${name}: ${got} against ${want}`).toBeLessThan(tolerance)
  }
}

const flyback: Record<string, Check> = {
  vout: volts(voltage('out')),
  vds: peak(voltage('d')),
  ipri: rms(current('Rpri')),
  ipriPeak: peak(current('Rpri')),
  isec: rms(current('Rsec')),
  // clamp power is the square of this over a resistor: 1 % here is 2 % there
  clamp: rms(difference(voltage('c2'), voltage('in'))),
}

describe('exported decks agree with a general-purpose simulator', () => {
  it('flyback in discontinuous mode with RCD clamp', async () => {
    const circuit = build(openLoop(parametersOf('O1_dcm_rcd')))
    await compare(circuit, cycle(circuit), flyback)
  })

  it('flyback with avalanche clamp, 30 W', async () => {
    const circuit = build(openLoop(parametersOf('O3_tvs_30W_llk8u')))
    const { clamp: _, ...rest } = flyback
    await compare(circuit, cycle(circuit), { ...rest, tvs: rms(current('Dcl')) })
  })

  it('flyback with avalanche clamp, 60 W', async () => {
    const circuit = build(openLoop(parametersOf('O3_tvs_60W_llk16u')))
    const { clamp: _, ...rest } = flyback
    await compare(circuit, cycle(circuit), { ...rest, tvs: rms(current('Dcl')) })
  })

  it('flyback in continuous mode at low mains', async () => {
    const circuit = build(
      openLoop({ ...parametersOf('O1_dcm_rcd'), Vin: 120, D: 0.5, Rload: 2.4, Rcl: 15000 }),
    )
    await compare(circuit, cycle(circuit), flyback)
  })

  it('flyback at its current limit', async () => {
    const circuit = build(currentLimited(parametersOf('O6a_overload'), 1.5))
    await compare(circuit, cycle(circuit), flyback)
  })

  it('closed loop with reference and optocoupler, light load', async () => {
    const circuit = build(closedLoop(parametersOf('O5_closed_loop')))
    const run = transient(circuit, { span_s: 5.5e-3 })
    if (!run.ok) throw new Error(run.message)
    await compare(circuit, run.final, { ...flyback, ic: volts(voltage('ic')), k: volts(voltage('k')) })
  })

  it('closed loop in the middle of a load step', async () => {
    const circuit = build(closedLoop(parametersOf('O5_closed_loop')))
    const run = transient(circuit, { span_s: 6.1e-3 })
    if (!run.ok) throw new Error(run.message)
    await compare(circuit, run.final, { ...flyback, ic: volts(voltage('ic')), k: volts(voltage('k')) })
  })

  it('flyback with three coupled windings and a bias output', async () => {
    const p = parametersOf('O1_dcm_rcd')
    const kept = stage(p).filter(({ name }) => !['Llk', 'Rlk', 'Lm', 'T'].includes(name))
    const elements: Element[] = [
      ...kept,
      {
        kind: 'coupled-inductors',
        name: 'Tx',
        windings: [
          { a: 'p1', b: 'd', inductance_H: 800e-6 },
          { a: '0', b: 's1', inductance_H: 8e-6 },
          { a: '0', b: 'b1', inductance_H: 18e-6 },
        ],
        couplings: [
          { of: [0, 1], k: 0.985 },
          { of: [0, 2], k: 0.97 },
          { of: [1, 2], k: 0.975 },
        ],
      },
      { kind: 'resistor', name: 'Rdamp', a: 'p1', b: 'd', resistance_ohm: 1e5 },
      { kind: 'diode', name: 'Dbias', a: 'b1', b: 'b2', drop_V: 0.7, slope_ohm: 0.5, capacitance_F: 50e-12 },
      { kind: 'resistor', name: 'Rbias', a: 'b2', b: 'bias', resistance_ohm: 10 },
      { kind: 'capacitor', name: 'Cbias', a: 'bias', b: '0', capacitance_F: 1e-6 },
      { kind: 'resistor', name: 'Rchip', a: 'bias', b: '0', resistance_ohm: 3000 },
      load(4.8),
    ]
    const circuit = build({
      title: 'three windings',
      elements,
      knobs: { duty: 0.24 },
      controllers: [fixedDuty({ name: 'pwm', drives: 'S1', period_s: 1e-5, dutyKnob: 'duty' })],
    })
    await compare(circuit, cycle(circuit), {
      ...flyback,
      bias: { figure: 'average', form: voltage('bias'), tolerance: 0.005 },
    })
  })

  it('boost with a saturating inductor', async () => {
    const circuit = build({
      title: 'boost',
      elements: [
        { kind: 'voltage-source', name: 'Vin', a: 'in', b: '0', waveform: { kind: 'dc', value: 24 } },
        { kind: 'resistor', name: 'Rl', a: 'in', b: 'x', resistance_ohm: 0.05 },
        {
          kind: 'saturating-inductor',
          name: 'L1',
          a: 'x',
          b: 'sw',
          inductance_H: 100e-6,
          knees: [{ current_A: 1.2, beyond_H: 40e-6 }],
        },
        { kind: 'switch', name: 'S1', a: 'sw', b: '0', on_ohm: 0.05, off_ohm: 1e7, capacitance_F: 100e-12 },
        { kind: 'diode', name: 'D1', a: 'sw', b: 'out', drop_V: 0.5, slope_ohm: 0.05 },
        { kind: 'capacitor', name: 'C1', a: 'out', b: '0', capacitance_F: 10e-6 },
        { kind: 'resistor', name: 'Rload', a: 'out', b: '0', resistance_ohm: 60 },
      ],
      knobs: { duty: 0.45 },
      controllers: [fixedDuty({ name: 'pwm', drives: 'S1', period_s: 1e-5, dutyKnob: 'duty' })],
    })
    await compare(circuit, cycle(circuit), {
      vout: volts(voltage('out')),
      peak: peak(current('Rl')),
      rms: rms(current('Rl')),
      drain: peak(voltage('sw')),
    })
  })
})
