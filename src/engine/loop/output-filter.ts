import { add, inX, multiply, type Polynomial, times } from './polynomial.ts'

/** Second stage of the output filter: a choke and a capacitor after the first capacitor. */
export interface SecondStage {
  readonly inductance_H: number
  readonly resistance_ohm: number
  readonly capacitance_F: number
  readonly capacitorResistance_ohm: number
}

export interface OutputFilter {
  readonly capacitance_F: number
  readonly capacitorResistance_ohm: number
  readonly second: SecondStage | null
}

/**
 * What the supply feeds. A battery holds its own voltage behind a resistance; a constant-power load has the negative
 * incremental conductance -I/V.
 */
export type Load =
  | { readonly kind: 'resistor' | 'constant-current' | 'constant-power' }
  | { readonly kind: 'battery'; readonly resistance_ohm: number }

/** Incremental conductance of a load at its working point, S. */
export function loadConductance(load: Load, output_V: number, output_A: number): number {
  switch (load.kind) {
    case 'resistor':
      return output_A / output_V
    case 'constant-current':
      return 0
    case 'constant-power':
      return -output_A / output_V
    case 'battery':
      return 1 / load.resistance_ohm
  }
}

/**
 * The filter as a two-port of impedances over one common denominator: node 1 is the first capacitor, where the
 * rectified current enters; node 2 is the load, which may draw an extra current. One node only: all are the same.
 * Z11 = n11/den, Z12 = n12/den, Z22 = n22/den, and Z11 Z22 - Z12^2 = nDet/den.
 */
export interface FilterPort {
  readonly n11: Polynomial
  readonly n12: Polynomial
  readonly n22: Polynomial
  readonly nDet: Polynomial
  readonly den: Polynomial
}

export function filterPort(filter: OutputFilter, conductance_S: number): FilterPort {
  const d1: Polynomial = [1, inX(filter.capacitance_F * filter.capacitorResistance_ohm)]
  const y1: Polynomial = [0, inX(filter.capacitance_F)]
  if (filter.second === null) {
    const den = add(y1, times(d1, conductance_S))
    return { n11: d1, n12: d1, n22: d1, nDet: [0], den }
  }
  const s = filter.second
  const z: Polynomial = [s.resistance_ohm, inX(s.inductance_H)]
  const d2: Polynomial = [1, inX(s.capacitance_F * s.capacitorResistance_ohm)]
  const y2 = add([0, inX(s.capacitance_F)], times(d2, conductance_S))
  return {
    n11: multiply(add(multiply(z, y2), d2), d1),
    n12: multiply(d1, d2),
    n22: multiply(add(multiply(z, y1), d1), d2),
    nDet: multiply(z, d1, d2),
    den: add(multiply(z, y1, y2), multiply(y1, d2), multiply(y2, d1)),
  }
}

/** Resonance of the second stage's choke with both capacitors in series, Hz. */
export function secondResonance(filter: OutputFilter): number | null {
  if (filter.second === null) return null
  const { inductance_H, capacitance_F } = filter.second
  const c = (filter.capacitance_F * capacitance_F) / (filter.capacitance_F + capacitance_F)
  return 1 / (2 * Math.PI * Math.sqrt(inductance_H * c))
}
