import { circuit } from '../src/engine/index.ts'

// Any switched network, here a buck converter: 20 V in, 40 % duty, 100 kHz, into 2 ohm.
const period_s = 10e-6
const built = circuit.buildCircuit({
  title: 'buck',
  elements: [
    { kind: 'voltage-source', name: 'V', a: 'in', b: '0', waveform: { kind: 'dc', value: 20 } },
    { kind: 'switch', name: 'S', a: 'in', b: 'x', on_ohm: 0.1 },
    { kind: 'diode', name: 'D', a: '0', b: 'x', drop_V: 0.4, slope_ohm: 0.02 },
    { kind: 'inductor', name: 'L', a: 'x', b: 'out', inductance_H: 100e-6 },
    { kind: 'capacitor', name: 'C', a: 'out', b: '0', capacitance_F: 220e-6 },
    { kind: 'resistor', name: 'R', a: 'out', b: '0', resistance_ohm: 2 },
  ],
  controllers: [circuit.fixedDuty({ name: 'pwm', drives: 'S', period_s, dutyKnob: 'duty' })],
  knobs: { duty: 0.4 },
})
if (!built.ok) throw new Error(built.problems[0]?.message)

// The cycle that repeats, found at once; a circuit that has none is a failure with a sentence, never a number.
const probes = { out: circuit.voltage('out'), inductor: circuit.current('L') }
const cycle = circuit.steadyState(built.circuit, { period_s, probes })
if (!cycle.ok) throw new Error(cycle.message)
const { out, inductor } = cycle.statistics
export const lines = [
  `output ${out!.average.toFixed(2)} V average, ${((out!.maximum - out!.minimum) * 1e3).toFixed(1)} mV peak to peak`,
  `inductor ${inductor!.minimum.toFixed(2)} to ${inductor!.maximum.toFixed(2)} A`,
]
