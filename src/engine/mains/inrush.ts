import { requireBetween } from '../quantity/require.ts'
import { type Thermistor, thermistorResistance } from './thermistor.ts'

export interface InrushCircuit {
  /** Crest of the mains, or the DC feed, less the bridge's two drops. */
  readonly crest_V: number
  readonly capacitance_F: number
  /** Everything in series that does not change: line, fuse, choke, diode slopes. At least 1 mohm. */
  readonly fixedResistance_ohm: number
  readonly thermistor: Thermistor | null
  readonly thermistor_C: number
}

export interface Inrush {
  /** At switch-on on the crest with an empty capacitor: V/R at the first instant. */
  readonly peak_A: number
  /** Integral of the squared current over the first charge, for the fuse and the bridge. */
  readonly squareIntegral_A2s: number
  /** Heat in the whole series resistance for the first charge; C V^2/2 for a step whatever the resistance. */
  readonly energy_J: number
  /** Temperature of the thermistor after the first charge. */
  readonly thermistor_C: number
}

/**
 * First charge of an empty bulk capacitor switched on at the crest, the worst moment for a resistive source:
 * C dv/dt = (V - v)/R(T), heat capacity dT/dt = i^2 R(T), the mains held at its crest.
 *
 * With constant resistance: peak V/R, integral C V^2/(2 R), energy C V^2/2. With a thermistor the charge is
 * integrated with dq as the variable in 40 midpoint steps (nothing else moves the temperature in a few milliseconds).
 * The crest does not really last, so integral and energy are upper bounds. Units SI.
 */
export function inrush(circuit: InrushCircuit): Inrush {
  const { crest_V: V, capacitance_F: C, thermistor } = circuit
  requireBetween('crest_V', V, 0, 1e4, 'V')
  requireBetween('capacitance_F', C, 1e-9, 1, 'F')
  requireBetween('fixedResistance_ohm', circuit.fixedResistance_ohm, 0, 1e5, 'ohm')
  const fixed = Math.max(circuit.fixedResistance_ohm, 1e-3)
  const energy_J = 0.5 * C * V * V
  if (thermistor === null)
    return {
      peak_A: V / fixed,
      squareIntegral_A2s: energy_J / fixed,
      energy_J,
      thermistor_C: circuit.thermistor_C,
    }

  let temperature_C = circuit.thermistor_C
  let squareIntegral = 0
  const steps = 40
  const charge = (C * V) / steps
  for (let k = 0; k < steps; k++) {
    const across = V * (1 - (k + 0.5) / steps)
    const r = thermistorResistance(thermistor, temperature_C)
    const middle_C =
      temperature_C + (0.5 * across * charge * r) / (fixed + r) / thermistor.heatCapacity_J_per_K
    const middle = thermistorResistance(thermistor, middle_C)
    squareIntegral += (across * charge) / (fixed + middle)
    temperature_C += (across * charge * middle) / (fixed + middle) / thermistor.heatCapacity_J_per_K
  }
  return {
    peak_A: V / (fixed + thermistorResistance(thermistor, circuit.thermistor_C)),
    squareIntegral_A2s: squareIntegral,
    energy_J,
    thermistor_C: temperature_C,
  }
}
