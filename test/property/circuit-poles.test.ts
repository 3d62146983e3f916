import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  buildCircuit,
  type Circuit,
  type Element,
  type LinearForm,
  type Netlist,
  transient,
  voltage,
} from '../../src/engine/circuit/index.ts'
import { type Figures, follow, type System } from './linear-reference.ts'

// Equal and nearly equal time constants: the modes of a network then share eigenvectors, and courses and integrals
// must not be formed from differences of near equals. Reference: an integration of its own by Taylor series and Gauss
// quadrature over small steps (linear-reference.ts), on systems x' = A x + b u known beforehand.

const settings = { seed: 20240611, numRuns: 60 }

const build = (netlist: Netlist): Circuit => {
  const built = buildCircuit(netlist)
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  return built.circuit
}

const period_s = 1e-5
const edge_s = 1e-9

/** Capacitors charged by controlled currents make any system: C dv_i/dt = C (sum a_ij v_j + b_i u). */
const circuitOf = ({ a, b, start, low, high, duty }: System, farads: readonly number[]): Circuit => {
  const n = b.length
  const elements: Element[] = [
    {
      kind: 'voltage-source',
      name: 'U',
      a: 'u',
      b: '0',
      waveform: {
        kind: 'pulse',
        low,
        high,
        delay_s: 0,
        rise_s: edge_s,
        width_s: duty * period_s - edge_s,
        fall_s: edge_s,
        period_s,
      },
    },
    { kind: 'resistor', name: 'Ru', a: 'u', b: '0', resistance_ohm: 1e3 },
  ]
  for (let i = 0; i < n; i++) {
    const farad = farads[i]!
    const value: LinearForm = {
      terms: [
        ...Array.from({ length: n }, (_, j) => ({
          gain: -farad * a[i * n + j]!,
          of: { kind: 'voltage', from: `x${j}`, to: '0' } as const,
        })).filter(({ gain }) => gain !== 0),
        { gain: -farad * b[i]!, of: { kind: 'voltage', from: 'u', to: '0' } as const },
      ],
      offset: 0,
    }
    elements.push(
      { kind: 'capacitor', name: `C${i}`, a: `x${i}`, b: '0', capacitance_F: farad, initial_V: start[i]! },
      { kind: 'controlled-current', name: `G${i}`, a: `x${i}`, b: '0', value },
    )
  }
  return build({ title: 'system', elements })
}

const measured = (system: System, farads: readonly number[], cycles: number): Figures[] => {
  const n = system.b.length
  const probes = Object.fromEntries(Array.from({ length: n }, (_, i) => [`x${i}`, voltage(`x${i}`)]))
  const span_s = cycles * period_s
  const run = transient(circuitOf(system, farads), {
    span_s,
    probes,
    windows: [{ name: 'all', from_s: 0, to_s: span_s }],
  })
  if (!run.ok) throw new Error(run.message)
  return Array.from({ length: n }, (_, i) => {
    const { average, rms, maximum, minimum } = run.windows.all![`x${i}`]!
    return { average, rms, maximum, minimum, end: run.final.values[i]! }
  })
}

/** Size of every state, a share of the largest at least: states have the rounding of the network in common. */
const sizes = (figures: readonly Figures[], share: number): number[] => {
  const own = figures.map(({ maximum, minimum }) => Math.max(Math.abs(maximum), Math.abs(minimum)))
  return own.map((size) => Math.max(size, share * Math.max(...own)))
}

/** Largest difference of averages, mean squares and ends, and of extremes, against the sizes of the states. */
const distance = (one: readonly Figures[], other: readonly Figures[]) => {
  const fine = sizes(one, 1e-3)
  const coarse = sizes(one, 1e-2)
  const worst = (difference: (a: Figures, b: Figures, size: number) => number, size = fine) =>
    Math.max(...one.map((figures, i) => Math.abs(difference(figures, other[i]!, size[i]!))))
  return {
    exact: Math.max(
      worst((a, b, scale) => (a.average - b.average) / scale),
      worst((a, b, scale) => (a.rms ** 2 - b.rms ** 2) / scale ** 2),
      worst((a, b, scale) => (a.end - b.end) / scale),
    ),
    extremes: Math.max(
      worst((a, b, scale) => (a.maximum - b.maximum) / scale, coarse),
      worst((a, b, scale) => (a.minimum - b.minimum) / scale, coarse),
    ),
  }
}

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const decades = (from: number, to: number) => real(Math.log10(from), Math.log10(to)).map((x) => 10 ** x)
const count = fc.integer({ min: 2, max: 5 })

/** A shift that parts equal poles: none, or 1e-12 to 1e-3 of the rate. */
const parting = fc.oneof(fc.constant(0), decades(1e-12, 1e-3))

/** Poles in cascade, equal but for `part`: real, zero (integrators) or pairs; the rest of the couplings at random. */
const cascade = fc
  .record({
    n: count,
    kind: fc.constantFrom('real', 'real', 'zero', 'pair'),
    rate: decades(1e4, 1e6),
    damping: decades(1e-3, 1),
    part: parting,
    gains: fc.array(
      fc.oneof(
        fc.constant(0),
        decades(1e-4, 3),
        decades(1e-4, 3).map((x) => -x),
      ),
      { minLength: 25, maxLength: 25 },
    ),
    shifts: fc.array(real(-1, 1), { minLength: 5, maxLength: 5 }),
    start: fc.array(real(-5, 5), { minLength: 5, maxLength: 5 }),
    nano: fc.array(decades(1e-2, 1e2), { minLength: 5, maxLength: 5 }),
    duty: real(0.1, 0.9),
    high: real(1, 20),
  })
  .map(({ n, kind, rate, damping, part, gains, shifts, start, nano, duty, high }) => {
    const a = new Float64Array(n * n)
    for (let i = 0; i < n; i++) {
      a[i * n + i] = kind === 'zero' ? 0 : -rate * (1 + part * shifts[i]!)
      // integrators as slow as their neighbours, so that several in a row stay finite
      for (let j = 0; j < i; j++) a[i * n + j] = rate * gains[i * 5 + j]! * (kind === 'zero' ? 0.1 : 1)
    }
    if (kind === 'pair')
      for (let i = 0; i + 1 < n; i += 2) {
        const ring = rate * (1 + part * shifts[i]!)
        a[i * n + i] = -damping * ring
        a[(i + 1) * n + i + 1] = -damping * ring
        a[i * n + i + 1] = -ring
        a[(i + 1) * n + i] = ring
      }
    const b = Float64Array.from({ length: n }, (_, i) => (i === 0 ? rate : 0))
    const system: System = { a, b, start: start.slice(0, n), low: 0, high, duty }
    return { system, farads: nano.slice(0, n).map((value) => value * 1e-9) }
  })

describe('equal and nearly equal poles', () => {
  it('give averages, rms values, extremes and ends of a fine integration', () => {
    fc.assert(
      fc.property(cascade, ({ system, farads }) => {
        const got = measured(system, farads, 3)
        const { exact, extremes } = distance(follow(system, { period_s, edge_s, cycles: 3 }), got)
        // the reference is accurate to 1e-12; turning points are sought while a mode is above 1e-7 of its course
        expect(exact).toBeLessThan(1e-10)
        expect(extremes).toBeLessThan(5e-7)
      }),
      settings,
    )
  })
})
