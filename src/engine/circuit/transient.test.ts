import { describe, expect, it } from 'vitest'
import { buildCircuit, type Circuit } from './circuit.ts'
import type { Controller } from './controller.ts'
import { current, scaled, sum, voltage } from './form.ts'
import type { Element, Netlist, Waveform } from './netlist.ts'
import type { TransientOptions, TransientRun } from './run.ts'
import { transient } from './transient.ts'

const circuitOf = (elements: Element[], rest: Partial<Netlist> = {}): Circuit => {
  const built = buildCircuit({ title: 'test', elements, ...rest })
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  return built.circuit
}

const run = (circuit: Circuit, options: TransientOptions): TransientRun => {
  const result = transient(circuit, options)
  if (!result.ok) throw new Error(result.message)
  return result
}

const r = (name: string, a: string, b: string, resistance_ohm: number): Element => ({
  kind: 'resistor',
  name,
  a,
  b,
  resistance_ohm,
})
const c = (name: string, a: string, b: string, capacitance_F: number, initial_V = 0): Element => ({
  kind: 'capacitor',
  name,
  a,
  b,
  capacitance_F,
  initial_V,
})
const l = (name: string, a: string, b: string, inductance_H: number, initial_A = 0): Element => ({
  kind: 'inductor',
  name,
  a,
  b,
  inductance_H,
  initial_A,
})
const source = (name: string, a: string, waveform: Waveform): Element => ({
  kind: 'voltage-source',
  name,
  a,
  b: '0',
  waveform,
})
const dc = (name: string, a: string, value: number): Element => source(name, a, { kind: 'dc', value })

/** Closed forms are those of any text on linear circuits; tolerances are rounding. */
describe('linear networks against their closed solutions', () => {
  it('charges a capacitor through a resistor: v = V (1 - e^(-t/RC))', () => {
    const circuit = circuitOf([dc('V', 'in', 10), r('R', 'in', 'out', 1e3), c('C', 'out', '0', 1e-6)])
    const { final, windows } = run(circuit, {
      span_s: 2e-3,
      probes: { i: current('R'), v: voltage('out') },
      windows: [{ name: 'all', from_s: 0, to_s: 2e-3 }],
    })
    expect(final.values[0]! / (10 * (1 - Math.exp(-2)))).toBeCloseTo(1, 12)
    // charge and heat: integral of i = C v, integral of i^2 R = (V^2 C / 2)(1 - e^-4)
    const { i, v } = windows.all!
    expect(i!.integral / (1e-6 * final.values[0]!)).toBeCloseTo(1, 12)
    expect((i!.rms ** 2 * 1e3 * 2e-3) / (50e-6 * (1 - Math.exp(-4)))).toBeCloseTo(1, 12)
    expect(v!.average / (10 * (1 - (1 - Math.exp(-2)) / 2))).toBeCloseTo(1, 12)
  })

  it.each([
    ['underdamped', 20],
    ['critically damped', 2 * Math.sqrt(1e-3 / 1e-6)],
    ['overdamped', 500],
  ])('steps a series RLC, %s', (_, ohm) => {
    const circuit = circuitOf([
      dc('V', 'in', 1),
      r('R', 'in', 'a', ohm),
      l('L', 'a', 'out', 1e-3),
      c('C', 'out', '0', 1e-6),
    ])
    const t = 73e-6
    const alpha = ohm / 2e-3
    const d = alpha ** 2 - 1e9
    const x = Math.sqrt(Math.abs(d)) * t
    const shape =
      Math.abs(d) < 1e-3
        ? 1 + alpha * t
        : d < 0
          ? Math.cos(x) + (alpha * t * Math.sin(x)) / x
          : Math.cosh(x) + (alpha * t * Math.sinh(x)) / x
    const want = 1 - Math.exp(-alpha * t) * shape
    expect(run(circuit, { span_s: t }).final.values[0]! / want).toBeCloseTo(1, 11)
  })

  it('rings a lossless LC for a thousand periods and keeps its energy', () => {
    const circuit = circuitOf([l('L', 'a', '0', 1e-6), c('C', 'a', '0', 1e-9, 5)])
    const period = 2 * Math.PI * Math.sqrt(1e-15)
    const { final, windows, audit } = run(circuit, {
      span_s: 1000.25 * period,
      probes: { i: current('L') },
      windows: [{ name: 'all', from_s: 0, to_s: 1 }],
      audit: true,
    })
    // nothing is turned over between source and loss: the error is told against what is held
    expect(Math.abs(audit!.relativeError)).toBeLessThan(1e-9)
    expect(windows.all!.i!.maximum / (5 * Math.sqrt(1e-9 / 1e-6))).toBeCloseTo(1, 9)
    const energy = 0.5e-9 * final.values[0]! ** 2 + 0.5e-6 * final.values[1]! ** 2
    expect(energy / 12.5e-9).toBeCloseTo(1, 9)
  })

  it('drives RL with a sine: amplitude V/|Z| and the decaying offset', () => {
    const w = 2 * Math.PI * 50
    const circuit = circuitOf([
      source('V', 'in', { kind: 'sine', offset: 0, amplitude: 325, frequency_Hz: 50, phase_rad: 0.3 }),
      r('R', 'in', 'a', 10),
      l('L', 'a', '0', 50e-3),
    ])
    const phi = Math.atan2(w * 50e-3, 10)
    const amps = 325 / Math.hypot(10, w * 50e-3)
    const at = (t: number) => amps * (Math.sin(w * t + 0.3 - phi) - Math.sin(0.3 - phi) * Math.exp(-t * 200))
    expect(run(circuit, { span_s: 7.3e-3 }).final.values[0]! / at(7.3e-3)).toBeCloseTo(1, 11)
    expect(run(circuit, { span_s: 0.1234 }).final.values[0]! / at(0.1234)).toBeCloseTo(1, 10)
  })

  it('follows a ramp and a trapezoid into RC', () => {
    const circuit = circuitOf([
      source('V', 'in', {
        kind: 'piecewise',
        points: [
          [0, 0],
          [1e-3, 10],
          [2e-3, 10],
        ],
      }),
      r('R', 'in', 'out', 1e3),
      c('C', 'out', '0', 1e-6),
    ])
    // ramp response k (t - tau (1 - e^(-t/tau)))
    const end = 1e4 * (1e-3 - 1e-3 * (1 - Math.exp(-1)))
    const { final } = run(circuit, { span_s: 1.5e-3 })
    expect(final.values[0]! / (10 + (end - 10) * Math.exp(-0.5))).toBeCloseTo(1, 12)
  })

  it('sees the leakage k leaves: shorted secondary is L1 (1 - k^2)', () => {
    const circuit = circuitOf([
      dc('V', 'in', 10),
      r('R', 'in', 'a', 2),
      {
        kind: 'coupled-inductors',
        name: 'T',
        windings: [
          { a: 'a', b: '0', inductance_H: 1e-3 },
          { a: 's', b: '0', inductance_H: 4e-3 },
        ],
        couplings: [{ of: [0, 1], k: 0.98 }],
      },
      r('Rs', 's', '0', 1e-9),
    ])
    const leakage = 1e-3 * (1 - 0.98 ** 2)
    const { windows } = run(circuit, {
      span_s: 40e-6,
      probes: { i: current('T', 0), j: current('T', 1) },
      windows: [{ name: 'all', from_s: 0, to_s: 40e-6 }],
    })
    expect(windows.all!.i!.maximum / (5 * (1 - Math.exp((-40e-6 * 2) / leakage)))).toBeCloseTo(1, 7)
    // currents stand in the ratio k sqrt(L1 / L2)
    expect(windows.all!.j!.minimum / windows.all!.i!.maximum).toBeCloseTo(-0.98 / 2, 7)
  })

  it('holds a capacitor straight across a source at its voltage', () => {
    const { final } = run(circuitOf([dc('V', 'in', 10), c('C', 'in', '0', 1e-6)]), { span_s: 1e-6 })
    expect([...final.values]).toEqual([10])
  })

  it('shares the charge of a stepped capacitor divider', () => {
    const circuit = circuitOf([
      source('V', 'in', {
        kind: 'pulse',
        low: 0,
        high: 12,
        delay_s: 1e-6,
        rise_s: 0,
        width_s: 1,
        fall_s: 0,
        period_s: 2,
      }),
      c('C1', 'in', 'm', 1e-9),
      c('C2', 'm', '0', 3e-9),
    ])
    const { final } = run(circuit, { span_s: 2e-6 })
    expect(final.values[0]!).toBeCloseTo(9, 9)
    expect(final.values[1]!).toBeCloseTo(3, 9)
  })

  it('shares the current of inductors in a cutset through an ideal transformer', () => {
    // 10 V on leakage 1 uH and, through 2:1, on 4 times 1 uH: di/dt = V / (L1 + 4 L2)
    const circuit = circuitOf([
      dc('V', 'in', 10),
      l('L1', 'in', 'p', 1e-6),
      {
        kind: 'ideal-transformer',
        name: 'T',
        windings: [
          { a: 'p', b: '0', turns: 2 },
          { a: 's', b: '0', turns: 1 },
        ],
      },
      l('L2', 's', '0', 1e-6),
    ])
    const { windows } = run(circuit, {
      span_s: 1e-6,
      probes: { i: current('L1') },
      windows: [{ name: 'all', from_s: 0, to_s: 1e-6 }],
    })
    expect(windows.all!.i!.maximum).toBeCloseTo(2, 9)
  })
})

describe('events', () => {
  it('stops an LC swing with a diode at twice the source', () => {
    const circuit = circuitOf([
      dc('V', 'in', 100),
      l('L', 'in', 'a', 1e-3),
      { kind: 'diode', name: 'D', a: 'a', b: 'out', drop_V: 0, slope_ohm: 1e-9 },
      c('C', 'out', '0', 1e-6),
    ])
    const { final, windows } = run(circuit, {
      span_s: 1e-3,
      probes: { i: current('L') },
      windows: [{ name: 'all', from_s: 0, to_s: 1e-3 }],
    })
    // the open diode leaks 100 V * 1e-10 S for 0.9 ms
    expect(final.values[0]! / 200).toBeCloseTo(1, 6)
    expect(windows.all!.i!.maximum / (100 * Math.sqrt(1e-6 / 1e-3))).toBeCloseTo(1, 9)
    expect(windows.all!.i!.timeOfMaximum_s / ((Math.PI / 2) * Math.sqrt(1e-9))).toBeCloseTo(1, 6)
  })

  it('locates a threshold to better than a picosecond', () => {
    let seen = 0
    const comparator: Controller = {
      name: 'comparator',
      watches: { v: voltage('out') },
      memory: {},
      start: (io) => io.arm('v', { offset: -7 }),
      react: (_, io) => {
        seen = io.time_s
      },
    }
    const circuit = circuitOf([dc('V', 'in', 10), r('R', 'in', 'out', 1e3), c('C', 'out', '0', 1e-6)], {
      controllers: [comparator],
    })
    run(circuit, { span_s: 5e-3 })
    expect(Math.abs(seen - 1e-3 * Math.log(10 / 3))).toBeLessThan(1e-13)
  })

  it('does not miss a grazing dip of a ring between samples', () => {
    let count = 0
    const watch: Controller = {
      name: 'watch',
      watches: { v: voltage('a') },
      memory: {},
      // lossless ring of 1 V: threshold 1 ppm under the crest
      start: (io) => io.arm('v', { offset: -(1 - 1e-6) }),
      react: () => {
        count++
      },
    }
    const circuit = circuitOf([l('L', 'a', '0', 1e-6, Math.sqrt(1e-3)), c('C', 'a', '0', 1e-9)], {
      controllers: [watch],
    })
    run(circuit, { span_s: 1e-6 })
    expect(count).toBe(1)
  })

  it('holds a diode on for its stored charge: ts = tau ln(1 + IF / IR)', () => {
    // 1 A forward for long, then 2 A reverse through a resistor (S. M. Sze, Physics of Semiconductor Devices, 2.6)
    const circuit = circuitOf([
      source('V', 'in', {
        kind: 'piecewise',
        points: [
          [0, 100],
          [50e-6, 100],
          [50.0001e-6, -200],
        ],
      }),
      r('R', 'in', 'a', 100),
      { kind: 'diode', name: 'D', a: 'a', b: '0', drop_V: 0, slope_ohm: 1e-6, transit_s: 1e-6 },
    ])
    const { waveforms } = run(circuit, {
      span_s: 60e-6,
      probes: { i: current('R') },
      waveforms: { from_s: 50e-6, to_s: 60e-6, probes: ['i'] },
    })
    const { time_s, columns } = waveforms!
    const end = time_s.findIndex((t, k) => t > 50.001e-6 && Math.abs(columns.i![k]!) < 1e-6)
    // the edge itself takes 0.1 ns
    expect((time_s[end]! - 50.0001e-6) / (1e-6 * Math.log(1.5))).toBeCloseTo(1, 3)
  })

  it('bends: clips a sine at both limits', () => {
    const clip: Element = {
      kind: 'controlled-voltage',
      name: 'E',
      a: 'out',
      b: '0',
      value: voltage('in'),
      bends: [
        { gain: -1, of: sum(voltage('in'), { terms: [], offset: -3 }) },
        { gain: 1, of: sum(scaled(-1, voltage('in')), { terms: [], offset: -2 }) },
      ],
    }
    const circuit = circuitOf([
      source('V', 'in', { kind: 'sine', offset: 0, amplitude: 5, frequency_Hz: 1e3, phase_rad: 0 }),
      clip,
      r('R', 'out', '0', 1),
    ])
    const { windows } = run(circuit, {
      span_s: 1e-3,
      probes: { v: voltage('out') },
      windows: [{ name: 'all', from_s: 0, to_s: 1e-3 }],
    })
    expect(windows.all!.v!.maximum).toBeCloseTo(3, 9)
    expect(windows.all!.v!.minimum).toBeCloseTo(-2, 9)
  })

  it('follows a saturating inductor over its knee', () => {
    const circuit = circuitOf([
      dc('V', 'in', 10),
      {
        kind: 'saturating-inductor',
        name: 'L',
        a: 'in',
        b: '0',
        inductance_H: 1e-3,
        knees: [{ current_A: 1, beyond_H: 1e-4 }],
      },
    ])
    // 100 us to the knee, then ten times as fast
    expect(run(circuit, { span_s: 150e-6 }).final.values[0]!).toBeCloseTo(6, 9)
  })
})

describe('runs', () => {
  const ringing = () =>
    circuitOf([dc('V', 'in', 10), r('R', 'in', 'a', 1), l('L', 'a', 'out', 1e-6), c('C', 'out', '0', 1e-9)])

  it('resumes where it stopped', () => {
    const circuit = ringing()
    const whole = run(circuit, { span_s: 1e-6 }).final
    const half = run(circuit, { span_s: 0.4e-6 }).final
    const rest = run(circuit, { span_s: 0.6e-6, start: half }).final
    for (let i = 0; i < 2; i++) expect(rest.values[i]! / whole.values[i]!).toBeCloseTo(1, 11)
  })

  it('fails by name: cancelled, out of events, bad options', () => {
    const oscillator: Controller = {
      name: 'clock',
      watches: {},
      memory: {},
      start: (io) => io.timerAt('tick', 0),
      react: (_, io) => io.timerAt('tick', io.time_s + 1e-9),
    }
    const circuit = circuitOf([dc('V', 'in', 10), r('R', 'in', '0', 1)], { controllers: [oscillator] })
    expect(transient(circuit, { span_s: 1, cancelled: () => true })).toMatchObject({
      ok: false,
      code: 'cancelled',
    })
    expect(transient(circuit, { span_s: 1, limits: { events: 5000 } })).toMatchObject({
      ok: false,
      code: 'event-budget',
    })
    expect(transient(circuit, { span_s: Number.NaN })).toMatchObject({ ok: false, code: 'bad-option' })
    expect(transient(circuit, { span_s: 1, probes: { x: voltage('nowhere') } })).toMatchObject({
      ok: false,
      message: 'probe x: no node called nowhere',
    })
  })

  it('says that a comparator without memory chatters', () => {
    const chatter: Controller = {
      name: 'chatter',
      watches: { v: voltage('a') },
      memory: { closed: false },
      start: (io) => io.arm('v', { offset: -1 }),
      react: (_, io) => {
        io.remember('closed', io.recall('closed') !== true)
        io.set('S', io.recall('closed') === true)
        io.arm('v', { offset: -1 })
      },
    }
    const circuit = circuitOf(
      [dc('V', 'a', 2), { kind: 'switch', name: 'S', a: 'a', b: '0', on_ohm: 1 }, r('R', 'a', '0', 5)],
      { controllers: [chatter] },
    )
    expect(transient(circuit, { span_s: 1e-3 })).toMatchObject({ ok: false, code: 'chattering' })
  })

  it('counts cycles in columns', () => {
    const circuit = circuitOf([
      source('V', 'in', { kind: 'sine', offset: 1, amplitude: 2, frequency_Hz: 1e3, phase_rad: 0 }),
      r('R', 'in', '0', 1),
    ])
    const { cycles } = run(circuit, {
      span_s: 5e-3,
      probes: { v: voltage('in') },
      cycles: { period_s: 1e-3 },
    })
    expect(cycles.v!.average).toHaveLength(5)
    for (let k = 0; k < 5; k++) {
      expect(cycles.v!.average[k]!).toBeCloseTo(1, 10)
      expect(cycles.v!.rms[k]!).toBeCloseTo(Math.sqrt(3), 10)
      expect(cycles.v!.maximum[k]!).toBeCloseTo(3, 10)
    }
  })
})
