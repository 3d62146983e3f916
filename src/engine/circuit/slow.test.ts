import { describe, expect, it } from 'vitest'
import { buildCircuit } from './circuit.ts'
import type { Element } from './netlist.ts'
import { transient } from './transient.ts'

/** End voltage of 100 uF from 300 V under 20 W for 100 ms, with a given slow step. */
function discharge(step_s: number): number {
  const elements: Element[] = [
    { kind: 'capacitor', name: 'C', a: 'a', b: '0', capacitance_F: 100e-6, initial_V: 300 },
    {
      kind: 'slow',
      name: 'P',
      a: 'a',
      b: '0',
      initial: [],
      step_s,
      law: (_, _time, v) => ({ conductance_S: -20 / v ** 2, current_A: 40 / v }),
    },
  ]
  const built = buildCircuit({ title: 'hold-up', elements })
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  const run = transient(built.circuit, { span_s: 0.1 })
  if (!run.ok) throw new Error(run.message)
  return run.final.values[0]!
}

describe('slow elements', () => {
  // energy: C v^2 / 2 falls by P t
  const want = Math.sqrt(300 ** 2 - (2 * 20 * 0.1) / 100e-6)

  it('follow constant power: v = sqrt(v0^2 - 2 P t / C)', () => {
    expect(discharge(1e-3) / want).toBeCloseTo(1, 5)
  })

  it('converge with the square of the step or faster', () => {
    const coarse = Math.abs(discharge(8e-3) - want)
    const fine = Math.abs(discharge(2e-3) - want)
    // a quarter of the step leaves a sixteenth of the error; a third off for the start with short steps
    expect(fine).toBeLessThan(coarse / 10)
  })

  it('heat their own state with the exact power', () => {
    // 10 W into 2 J/K for 50 ms through a fixed resistor: 0.25 K
    const built = buildCircuit({
      title: 'heater',
      elements: [
        {
          kind: 'voltage-source',
          name: 'V',
          a: 'a',
          b: '0',
          waveform: { kind: 'sine', offset: 0, amplitude: Math.sqrt(20), frequency_Hz: 1000, phase_rad: 0 },
        },
        {
          kind: 'slow',
          name: 'R',
          a: 'a',
          b: '0',
          initial: [300],
          step_s: 0.3e-3,
          law: () => ({ conductance_S: 1, current_A: 0 }),
          rate: (_, { power_W }) => [power_W / 2],
        },
      ],
    })
    if (!built.ok) throw new Error('refused')
    const run = transient(built.circuit, { span_s: 50e-3 })
    if (!run.ok) throw new Error(run.message)
    // the run may end within a slow step, whose heat is not yet booked: 0.3 ms of 50
    expect((run.final.slow[0]![0]! - 300) / 0.25).toBeGreaterThan(0.99)
    expect((run.final.slow[0]![0]! - 300) / 0.25).toBeLessThan(1.0001)
  })
})
