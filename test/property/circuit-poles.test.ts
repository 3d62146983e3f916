import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  buildCircuit,
  type Circuit,
  type Element,
  type LinearForm,
  type Netlist,
  steadyState,
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
const distance = (one: readonly Figures[], other: readonly Figures[], share = 1e-3) => {
  const fine = sizes(one, share)
  const coarse = sizes(one, Math.max(share, 1e-2))
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

interface Plan {
  readonly n: number
  readonly kind: 'real' | 'zero' | 'pair'
  readonly rate: number
  readonly damping: number
  readonly gains: readonly number[]
  readonly shifts: readonly number[]
  readonly start: readonly number[]
  readonly farads: readonly number[]
  readonly duty: number
  readonly high: number
}

const signed = (from: number, to: number) =>
  fc.oneof(
    fc.constant(0),
    decades(from, to),
    decades(from, to).map((x) => -x),
  )
const five = (of: fc.Arbitrary<number>) => fc.array(of, { minLength: 5, maxLength: 5 })

const plan: fc.Arbitrary<Plan> = fc.record({
  n: count,
  kind: fc.constantFrom('real', 'real', 'zero', 'pair'),
  rate: decades(1e4, 3e6),
  damping: decades(1e-3, 1),
  gains: fc.array(signed(1e-4, 3), { minLength: 25, maxLength: 25 }),
  shifts: five(real(-1, 1)),
  start: five(real(-5, 5)),
  farads: five(decades(1e-11, 1e-7)),
  duty: real(0.1, 0.9),
  high: real(1, 20),
})

/** Poles in cascade, equal but for `part`: real, zero (integrators) or pairs, with random couplings forward. */
const systemOf = (
  { n, kind, rate, damping, gains, shifts, start, duty, high }: Plan,
  part: number,
): System => {
  const a = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    a[i * n + i] = kind === 'zero' ? -rate * part * Math.abs(shifts[i]!) : -rate * (1 + part * shifts[i]!)
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
  return { a, b, start: start.slice(0, n), low: 0, high, duty }
}

describe('equal and nearly equal poles', () => {
  it('give averages, rms values, extremes and ends of a fine integration', () => {
    fc.assert(
      fc.property(plan, parting, (p, part) => {
        const system = systemOf(p, part)
        const got = measured(system, p.farads, 3)
        const { exact, extremes } = distance(follow(system, { period_s, edge_s, cycles: 3 }), got)
        // the reference is accurate to 1e-12; turning points are sought while a mode is above 1e-7 of its course
        expect(exact).toBeLessThan(1e-10)
        expect(extremes).toBeLessThan(5e-7)
      }),
      settings,
    )
  })

  it('part continuously: a shift of 1e-12 to 1e-3 moves no figure by more than its share', () => {
    fc.assert(
      fc.property(plan, decades(1e-12, 1e-3), (p, part) => {
        const whole = measured(systemOf(p, 0), p.farads, 3)
        const { exact, extremes } = distance(whole, measured(systemOf(p, part), p.farads, 3), 1)
        // d e^(lambda t) / d lambda = t e^(lambda t): at most some rate x 30 us, 90 here, for undamped pairs
        const most = 5 * (5 + p.rate * 3 * period_s) * part
        expect(exact).toBeLessThan(most + 1e-10)
        expect(extremes).toBeLessThan(most + 5e-7)
      }),
      settings,
    )
  })

  it('repeat in a cycle that is the limit of a long run', () => {
    fc.assert(
      fc.property(
        plan.filter(({ kind }) => kind === 'real'),
        parting,
        (p, part) => {
          const slow = { ...p, rate: 2e4 + p.rate }
          const system = systemOf(slow, part)
          const circuit = circuitOf(system, p.farads)
          const n = system.b.length
          const probes = Object.fromEntries(Array.from({ length: n }, (_, i) => [`x${i}`, voltage(`x${i}`)]))
          const cycle = steadyState(circuit, { period_s, probes })
          if (!cycle.ok) throw new Error(cycle.message)
          // every multiplier is e^(lambda T); a multiple root of degree n is found to the n-th root of rounding
          for (let i = 0; i < n; i++) {
            const want = Math.exp(system.a[i * n + i]! * period_s)
            expect(
              Math.min(...cycle.multipliers.map(({ re, im }) => Math.hypot(re - want, im))),
            ).toBeLessThan(0.01)
          }
          const again = follow(
            { ...system, start: Array.from(cycle.state.values) },
            { period_s, edge_s, cycles: 1 },
          )
          const got = Array.from({ length: n }, (_, i) => {
            const { average, rms, maximum, minimum } = cycle.statistics[`x${i}`]!
            return { average, rms, maximum, minimum, end: cycle.state.values[i]! }
          })
          const { exact, extremes } = distance(again, got)
          // the cycle closes within 1e-9
          expect(exact).toBeLessThan(2e-9)
          expect(extremes).toBeLessThan(5e-7)
        },
      ),
      settings,
    )
  })
})

/** Time constants from three values only, so that several coincide or nearly so. */
const few = (part: number) =>
  fc.tuple(fc.constantFrom(1, 1, 1, 2), real(-1, 1)).map(([x, y]) => x * (1 + part * y))

/** Stages of the same RC, RL or critically damped RLC, in passive chain or behind buffers, with diodes at the ends. */
const stages = parting.chain((part) =>
  fc.record({
    kinds: fc.array(fc.constantFrom('rc', 'rl', 'rlc', 'floating', 'buffer'), { minLength: 2, maxLength: 5 }),
    sizes: fc.array(few(part), { minLength: 15, maxLength: 15 }),
    diode: fc.boolean(),
    sine: fc.boolean(),
  }),
)

const ladder = ({
  kinds,
  sizes,
  diode,
  sine,
}: typeof stages extends fc.Arbitrary<infer T> ? T : never): Circuit => {
  const elements: Element[] = [
    {
      kind: 'voltage-source',
      name: 'V',
      a: 's',
      b: '0',
      waveform: sine
        ? { kind: 'sine', offset: 1, amplitude: 10, frequency_Hz: 5e4, phase_rad: 0.3 }
        : {
            kind: 'pulse',
            low: 0,
            high: 12,
            delay_s: 0,
            rise_s: 1e-9,
            width_s: 4e-6,
            fall_s: 1e-9,
            period_s,
          },
    },
    diode
      ? { kind: 'diode', name: 'D', a: 's', b: 'n0', drop_V: 0.5, slope_ohm: 0.1 }
      : { kind: 'resistor', name: 'Rs', a: 's', b: 'n0', resistance_ohm: 0.1 },
    { kind: 'resistor', name: 'Rb', a: 'n0', b: '0', resistance_ohm: 1e4 },
  ]
  kinds.forEach((kind, i) => {
    const [from, to, mid] = [`n${i}`, `n${i + 1}`, `m${i}`]
    const [r, l, c] = [sizes[3 * i]!, sizes[3 * i + 1]!, sizes[3 * i + 2]!]
    const resistor = (name: string, a: string, b: string, ohm: number): Element => ({
      kind: 'resistor',
      name: `${name}${i}`,
      a,
      b,
      resistance_ohm: ohm,
    })
    const capacitor = (name: string, a: string, b: string): Element => ({
      kind: 'capacitor',
      name: `${name}${i}`,
      a,
      b,
      capacitance_F: 1e-9 * c,
    })
    const inductor = (a: string, b: string): Element => ({
      kind: 'inductor',
      name: `L${i}`,
      a,
      b,
      inductance_H: 1e-3 * l,
    })
    if (kind === 'rc') elements.push(resistor('R', from, to, 1e3 * r), capacitor('C', to, '0'))
    if (kind === 'rl') elements.push(inductor(from, to), resistor('R', to, '0', 1e3 * r))
    // series RLC with R = 2 sqrt(L / C), critically damped while its sizes are one
    if (kind === 'rlc')
      elements.push(inductor(from, mid), resistor('R', mid, to, 2e3 * r), capacitor('C', to, '0'))
    // two capacitors whose common node floats but for a high resistance
    if (kind === 'floating')
      elements.push(
        capacitor('C', from, mid),
        capacitor('K', mid, to),
        resistor('R', to, '0', 1e3 * r),
        resistor('Q', mid, '0', 1e12),
      )
    if (kind === 'buffer')
      elements.push(
        { kind: 'controlled-voltage', name: `E${i}`, a: mid, b: '0', value: voltage(from) },
        resistor('R', mid, to, 1e3 * r),
        capacitor('C', to, '0'),
      )
  })
  return build({ title: 'ladder', elements })
}

describe('stages with equal time constants', () => {
  it('balance their energy', () => {
    fc.assert(
      fc.property(stages, (parts) => {
        const run = transient(ladder(parts), { span_s: 100e-6, audit: true })
        if (!run.ok) throw new Error(run.message)
        expect(Math.abs(run.audit!.relativeError)).toBeLessThan(1e-9)
      }),
      settings,
    )
  })
})
