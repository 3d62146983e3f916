import { describe, expect, it } from 'vitest'
import { buildCircuit, type Circuit } from './circuit.ts'
import type { Controller } from './controller.ts'
import { current, voltage } from './form.ts'
import type { Element } from './netlist.ts'
import { fixedDuty, peakCurrent } from './pwm.ts'
import { steadyState } from './steady.ts'

const buck = (load_ohm: number, controllers: Controller[], knobs: Record<string, number>): Circuit => {
  const elements: Element[] = [
    { kind: 'voltage-source', name: 'V', a: 'in', b: '0', waveform: { kind: 'dc', value: 20 } },
    { kind: 'switch', name: 'S', a: 'in', b: 'x', on_ohm: 1e-6 },
    { kind: 'diode', name: 'D', a: '0', b: 'x', drop_V: 0, slope_ohm: 1e-6 },
    { kind: 'inductor', name: 'L', a: 'x', b: 'out', inductance_H: 100e-6 },
    { kind: 'capacitor', name: 'C', a: 'out', b: '0', capacitance_F: 1e-3 },
    { kind: 'resistor', name: 'R', a: 'out', b: '0', resistance_ohm: load_ohm },
  ]
  const built = buildCircuit({ title: 'buck', elements, controllers, knobs })
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  return built.circuit
}
const period_s = 1e-5
const pwm = fixedDuty({ name: 'pwm', drives: 'S', period_s, dutyKnob: 'duty' })
const probes = { v: voltage('out'), i: current('L'), x: voltage('x', 'out'), c: current('C') }

/** R. W. Erickson and D. Maksimovic, Fundamentals of Power Electronics, ch. 2 and 5. */
describe('buck converter', () => {
  it('continuous mode: Vout = D Vin, ripple (Vin - V) D T / L', () => {
    const cycle = steadyState(buck(2, [pwm], { duty: 0.4 }), { period_s, probes })
    if (!cycle.ok) throw new Error(cycle.message)
    const { v, i, x, c } = cycle.statistics
    // the textbook takes the output as smooth: ripple of 1 mV in 8 V
    expect(v!.average / 8).toBeCloseTo(1, 4)
    expect((i!.maximum - i!.minimum) / ((12 * 0.4 * period_s) / 100e-6)).toBeCloseTo(1, 4)
    expect(Math.abs(x!.average)).toBeLessThan(1e-9)
    expect(Math.abs(c!.average)).toBeLessThan(1e-9)
    expect(cycle.residual).toBeLessThan(1e-9)
  })

  it('discontinuous mode: M = 2 / (1 + sqrt(1 + 4 K / D^2)), K = 2 L / (R T)', () => {
    for (const ohm of [50, 200]) {
      const cycle = steadyState(buck(ohm, [pwm], { duty: 0.4 }), { period_s, probes })
      if (!cycle.ok) throw new Error(cycle.message)
      const k = (2 * 100e-6) / (ohm * period_s)
      expect(cycle.statistics.v!.average / ((20 * 2) / (1 + Math.sqrt(1 + (4 * k) / 0.16)))).toBeCloseTo(1, 3)
      expect(Math.abs(cycle.statistics.i!.minimum)).toBeLessThan(1e-6)
    }
  })

  it('changes mode at K = 1 - D', () => {
    const edge = (2 * 100e-6) / (0.6 * period_s)
    const least = (ohm: number) => {
      const cycle = steadyState(buck(ohm, [pwm], { duty: 0.4 }), { period_s, probes })
      if (!cycle.ok) throw new Error(cycle.message)
      return cycle.statistics.i!.minimum
    }
    expect(least(edge * 0.99)).toBeGreaterThan(1e-4)
    expect(least(edge * 1.01)).toBeLessThan(1e-6)
  })

  it('finds the duty for a wanted output', () => {
    const cycle = steadyState(buck(2, [pwm], { duty: 0.1 }), {
      period_s,
      probes,
      solve: { knob: 'duty', low: 0.02, high: 0.95, average: voltage('out'), target: 5 },
    })
    if (!cycle.ok) throw new Error(cycle.message)
    expect(cycle.knobs.duty!).toBeCloseTo(0.25, 4)
    expect(cycle.statistics.v!.average).toBeCloseTo(5, 7)
  })

  it('says when a target is out of reach', () => {
    const cycle = steadyState(buck(2, [pwm], { duty: 0.1 }), {
      period_s,
      solve: { knob: 'duty', low: 0.02, high: 0.95, average: voltage('out'), target: 30 },
    })
    expect(cycle).toMatchObject({ ok: false, code: 'target-out-of-reach' })
  })
})

/** Multiplier of current-mode control in continuous mode: -(m2 - ma) / (m1 + ma) (Erickson and Maksimovic, 12.1). */
describe('peak current control', () => {
  const limiter = (slope_A_per_s: number) =>
    peakCurrent({
      name: 'limit',
      drives: 'S',
      period_s,
      senses: 'L',
      limitKnob: 'limit',
      blanking_s: 0.2e-6,
      most: 0.98,
      slope_A_per_s,
    })
  // a stiff output, so that only the current moves: 1000 uF at 13 V from 20 V is a duty of 0.65
  const m1 = 7 / 100e-6
  const m2 = 13 / 100e-6

  it('doubles its period above half duty', () => {
    const circuit = buck(1.3, [limiter(0)], { limit: 10 })
    const cycle = steadyState(circuit, {
      period_s,
      probes,
      solve: { knob: 'limit', low: 9, high: 12, average: voltage('out'), target: 13 },
    })
    expect(cycle).toMatchObject({ ok: false, code: 'subharmonic' })
    if (cycle.ok) return
    expect(cycle.multipliers[0]!.re).toBeCloseTo(-m2 / m1, 1)
  })

  it('is cured by a slope of m2 / 2 and more', () => {
    const ma = 0.7 * m2
    const cycle = steadyState(buck(1.3, [limiter(ma)], { limit: 15 }), {
      period_s,
      probes,
      solve: { knob: 'limit', low: 10, high: 20, average: voltage('out'), target: 13 },
    })
    if (!cycle.ok) throw new Error(cycle.message)
    const fast = cycle.multipliers.find(({ re }) => re < 0)!
    expect(fast.re).toBeCloseTo(-(m2 - ma) / (m1 + ma), 2)
  })

  it('has no stable cycle of two periods either: the map is a tent', () => {
    const cycle = steadyState(buck(1.15, [limiter(0)], { limit: 12 }), { period_s, probes, periods: 2 })
    expect(cycle).toMatchObject({ ok: false, code: 'subharmonic' })
  })
})

/**
 * The voltage-mode buck with natural sampling and no latch of J. H. B. Deane and D. C. Hamill, "Instability,
 * subharmonics and chaos in power electronic systems", IEEE Trans. Power Electronics 5, 1990 (20 mH, 47 uF, 22 ohm, gain
 * 8.4 on v - 11.3 V, ramp 3.8 to 8.2 V in 400 us). Its period doubles at an input of 24.5 V (value from memory).
 */
describe('natural sampling without a latch', () => {
  const ramp = { offset: 3.8, slope_per_s: 4.4 / 400e-6 }
  const clockless: Controller = {
    name: 'pwm',
    watches: {
      above: { terms: [{ gain: 8.4, of: { kind: 'voltage', from: 'out', to: '0' } }], offset: -8.4 * 11.3 },
      below: { terms: [{ gain: -8.4, of: { kind: 'voltage', from: 'out', to: '0' } }], offset: 8.4 * 11.3 },
    },
    memory: { from: 0 },
    start: (io) => io.timerAt('clock', 0),
    react: (event, io) => {
      if (event === 'clock') {
        io.timerAt('clock', io.time_s + 400e-6)
        io.remember('from', io.time_s)
      }
      const level = ramp.offset + ramp.slope_per_s * (io.time_s - (io.recall('from') as number))
      const close = event === 'below' || (event === 'clock' && io.read('above') < level)
      io.set('S', close)
      io.disarm('above')
      io.disarm('below')
      if (close) io.arm('above', { offset: -level, slope_per_s: -ramp.slope_per_s })
      else io.arm('below', { offset: level, slope_per_s: ramp.slope_per_s })
    },
  }
  const at = (volts: number, periods: number) => {
    const built = buildCircuit({
      title: 'buck',
      elements: [
        { kind: 'voltage-source', name: 'V', a: 'in', b: '0', waveform: { kind: 'dc', value: volts } },
        { kind: 'switch', name: 'S', a: 'in', b: 'x', on_ohm: 1e-6 },
        { kind: 'diode', name: 'D', a: '0', b: 'x', drop_V: 0, slope_ohm: 1e-6 },
        { kind: 'inductor', name: 'L', a: 'x', b: 'out', inductance_H: 20e-3, initial_A: 0.5 },
        { kind: 'capacitor', name: 'C', a: 'out', b: '0', capacitance_F: 47e-6, initial_V: 12 },
        { kind: 'resistor', name: 'R', a: 'out', b: '0', resistance_ohm: 22 },
      ],
      controllers: [clockless],
    })
    if (!built.ok) throw new Error(JSON.stringify(built.problems))
    return steadyState(built.circuit, { period_s: 400e-6, periods, settle: 50 })
  }

  it('repeats every period up to 24.3 V, not at 24.7 V', () => {
    expect(at(20, 1)).toMatchObject({ ok: true, periods: 1, subharmonic: false })
    expect(at(24.3, 1)).toMatchObject({ ok: true, periods: 1 })
    expect(at(24.7, 1)).toMatchObject({ ok: false, code: 'subharmonic' })
  })

  it('repeats every second period at 26 V', () => {
    expect(at(26, 2)).toMatchObject({ ok: true, periods: 2, subharmonic: true })
  })
})
