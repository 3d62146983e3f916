import { describe, expect, it } from 'vitest'
import { buildCircuit } from './circuit.ts'
import { current, voltage } from './form.ts'
import { fixedDuty } from './pwm.ts'
import { spiceDeck } from './spice.ts'

describe('SPICE deck', () => {
  const built = buildCircuit({
    title: 'Buck, 2:1',
    elements: [
      { kind: 'voltage-source', name: 'V in', a: 'In', b: '0', waveform: { kind: 'dc', value: 20 } },
      { kind: 'switch', name: 'S', a: 'In', b: 'x', on_ohm: 0.1, capacitance_F: 1e-10 },
      { kind: 'diode', name: 'D', a: '0', b: 'x', drop_V: 0.5, slope_ohm: 0.02, transit_s: 2e-8 },
      { kind: 'inductor', name: 'L', a: 'x', b: 'in', inductance_H: 1e-4, initial_A: 1 },
      { kind: 'resistor', name: 'R', a: 'in', b: '0', resistance_ohm: 10 },
    ],
    knobs: { duty: 0.5 },
    controllers: [fixedDuty({ name: 'pwm', drives: 'S', period_s: 1e-5, dutyKnob: 'duty' })],
  })
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  const deck = spiceDeck(built.circuit, {
    span_s: 2e-5,
    probes: { Out: voltage('in'), amps: current('D') },
  })
  if (!deck.ok) throw new Error(deck.message)
  const lines = deck.text.split('\n')

  it('keeps nodes apart which differ only by case', () => {
    expect(lines).toContain('Vv_in in 0 20')
    expect(lines).toContain('Rr in_2 0 10')
  })

  it('writes a diode as a source less 27 mV, an exponential diode and its stored charge', () => {
    expect(lines).toContain('Vd d_m d_v 0.473')
    expect(lines).toContain('Dd d_v x Md')
    expect(lines).toContain('.model Md D(IS=1n N=0.05 RS=0.02 TT=2e-8)')
    // measured because a probe asks for its current
    expect(lines).toContain('Vm_d 0 d_m 0')
  })

  it('drives the switch with the edges of the run, centred', () => {
    const gate = lines.find((line) => line.startsWith('Vg_s'))!
    const points = gate
      .slice(gate.indexOf('(') + 1)
      .split(' ')
      .map(Number)
    expect(points[2]).toBeCloseTo(4.9995e-6, 15)
    expect(points[4]).toBeCloseTo(5.0005e-6, 15)
    expect([points[1], points[3], points[5]]).toEqual([1, 1, 0])
  })

  it('saves the probes', () => {
    expect(lines).toContain('Bprobe_out probe_out 0 V = (1)*v(in_2)')
    expect(lines).toContain('.save v(probe_out) v(probe_amps)')
  })
})
