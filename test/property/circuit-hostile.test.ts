import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  buildCircuit,
  type Element,
  type LinearForm,
  type Netlist,
  spiceDeck,
  steadyState,
  transient,
  voltage,
} from '../../src/engine/circuit/index.ts'

// Netlists that make no sense: nothing may throw, hang, or answer with a number that is none. Each ends in figures, or
// in a failure with a name and a sentence.

const settings = { seed: 20240615, numRuns: 1500 }

const nonsense = fc.constantFrom<unknown>(
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  0,
  -0,
  -1,
  1e300,
  1e-300,
  -1e300,
  Number.MAX_VALUE,
  Number.MIN_VALUE,
)
const node = fc.constantFrom('0', 'a', 'b', 'c', 'd')
const size = fc.double({ min: -9, max: 4, noNaN: true }).map((x) => 10 ** x)
const branch = { a: node, b: node }

/** Any element between any nodes, so that loops of sources, cutsets, floating ends and shorted parts all come. */
const element: fc.Arbitrary<Element> = fc.oneof(
  fc.record({
    kind: fc.constant('resistor' as const),
    name: fc.constant('R'),
    ...branch,
    resistance_ohm: size,
  }),
  fc.record({
    kind: fc.constant('capacitor' as const),
    name: fc.constant('C'),
    ...branch,
    capacitance_F: size,
    initial_V: size,
  }),
  fc.record({
    kind: fc.constant('inductor' as const),
    name: fc.constant('L'),
    ...branch,
    inductance_H: size,
    initial_A: size,
  }),
  fc.record({
    kind: fc.constant('diode' as const),
    name: fc.constant('D'),
    ...branch,
    drop_V: size,
    slope_ohm: size,
    capacitance_F: size,
    transit_s: size,
  }),
  fc.record({
    kind: fc.constant('avalanche' as const),
    name: fc.constant('Z'),
    ...branch,
    breakdown_V: size,
    breakdown_slope_ohm: size,
    drop_V: size,
    slope_ohm: size,
  }),
  fc.record({
    kind: fc.constant('voltage-source' as const),
    name: fc.constant('V'),
    ...branch,
    waveform: fc.oneof(
      fc.record({ kind: fc.constant('dc' as const), value: size }),
      fc.record({
        kind: fc.constant('sine' as const),
        offset: size,
        amplitude: size,
        frequency_Hz: fc.constantFrom(50, 1e5),
        phase_rad: size,
      }),
      fc.record({
        kind: fc.constant('pulse' as const),
        low: size,
        high: size,
        delay_s: fc.constant(0),
        rise_s: fc.constant(1e-7),
        width_s: fc.constant(3e-6),
        fall_s: fc.constant(1e-7),
        period_s: fc.constant(1e-5),
      }),
    ),
  }),
  fc.record({
    kind: fc.constant('current-source' as const),
    name: fc.constant('I'),
    ...branch,
    waveform: fc.record({ kind: fc.constant('dc' as const), value: size }),
  }),
  fc.record({
    kind: fc.constantFrom('controlled-voltage' as const, 'controlled-current' as const),
    name: fc.constant('E'),
    ...branch,
    value: fc.tuple(size, node, node).map(
      ([gain, from, to]): LinearForm => ({
        terms: [{ gain, of: { kind: 'voltage', from, to } }],
        offset: 0,
      }),
    ),
  }),
  fc.record({
    kind: fc.constant('coupled-inductors' as const),
    name: fc.constant('T'),
    windings: fc.array(fc.record({ ...branch, inductance_H: size }), { minLength: 1, maxLength: 3 }),
    couplings: fc.array(
      fc.record({ of: fc.tuple(fc.nat(3), fc.nat(3)), k: fc.double({ min: 0, max: 1.1, noNaN: true }) }),
      { maxLength: 3 },
    ),
  }),
  fc.record({
    kind: fc.constant('ideal-transformer' as const),
    name: fc.constant('N'),
    windings: fc.array(fc.record({ ...branch, turns: size }), { minLength: 1, maxLength: 3 }),
  }),
)

/** A few sound parts, so that some of the networks are to be solved. */
const sound: readonly Element[] = [
  { kind: 'resistor', name: 'Ra', a: 'a', b: '0', resistance_ohm: 1e3 },
  { kind: 'resistor', name: 'Rb', a: 'b', b: 'a', resistance_ohm: 10 },
  { kind: 'resistor', name: 'Rc', a: 'c', b: 'b', resistance_ohm: 100 },
  { kind: 'resistor', name: 'Rd', a: 'd', b: '0', resistance_ohm: 1 },
]

/** Paths to all numbers of an element. */
function numbers(value: unknown, path: readonly string[] = []): string[][] {
  if (typeof value === 'number') return [[...path]]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) => numbers(inner, [...path, key]))
}

function replaced<T>(value: T, path: readonly string[], by: unknown): T {
  const copy = structuredClone(value)
  const last = path.slice(0, -1).reduce<any>((inner, key) => inner[key], copy)
  last[path.at(-1)!] = by
  return copy
}

const netlist: fc.Arbitrary<Netlist> = fc
  .tuple(fc.array(element, { minLength: 1, maxLength: 6 }), fc.boolean())
  .map(([parts, grounded]) => ({
    title: 'hostile',
    elements: [
      ...(grounded ? sound : []),
      ...parts.map((part, i) => ({ ...part, name: `${part.name}${i}` })),
    ],
  }))

const allFinite = (value: unknown): boolean =>
  typeof value === 'number'
    ? Number.isFinite(value)
    : ArrayBuffer.isView(value)
      ? [...(value as Float64Array)].every(Number.isFinite)
      : typeof value !== 'object' || value === null || Object.values(value).every(allFinite)

function endsWell(hostile: Netlist): string {
  const built = buildCircuit(hostile)
  if (!built.ok) {
    expect(built.problems.length).toBeGreaterThan(0)
    for (const { code, message } of built.problems)
      expect([code, message].every((text) => text.length > 3)).toBe(true)
    return built.problems[0]!.code
  }
  const { circuit } = built
  const probes = {
    first: voltage(hostile.elements[0] && 'a' in hostile.elements[0] ? hostile.elements[0].a : '0'),
  }
  const limits = { events: 3000, steps: 200_000 }
  const windows = [{ name: 'all', from_s: 0, to_s: 3e-5 }]
  const run = transient(circuit, { span_s: 3e-5, probes, windows, limits, audit: true })
  const cycle = steadyState(circuit, { period_s: 1e-5, probes, limits, iterations: 10 })
  if (run.ok) {
    const { start: _, ...figures } = {
      start: 0,
      windows: run.windows,
      final: run.final.values,
      audit: run.audit,
    }
    expect(allFinite(figures), JSON.stringify(figures)).toBe(true)
    spiceDeck(circuit, { span_s: 1e-5, probes, step_s: 1e-8 })
  } else expect([run.code, run.message].every((text) => text.length > 3)).toBe(true)
  if (cycle.ok)
    expect(
      allFinite([cycle.statistics, cycle.state.values, cycle.residual]),
      JSON.stringify(cycle.statistics),
    ).toBe(true)
  else expect([cycle.code, cycle.message].every((text) => text.length > 3)).toBe(true)
  return run.ok ? 'solved' : run.code
}

describe('netlists that make no sense', () => {
  it('of any shape end in figures or in a failure with a name', () => {
    const ends = new Map<string, number>()
    fc.assert(
      fc.property(netlist, (hostile) => {
        const end = endsWell(hostile)
        ends.set(end, (ends.get(end) ?? 0) + 1)
      }),
      settings,
    )
    // the shapes are of many kinds, and some can be solved
    expect(ends.size).toBeGreaterThan(4)
    expect(ends.get('solved')).toBeGreaterThan(20)
  })

  it('with one value of nonsense end so too', () => {
    fc.assert(
      fc.property(netlist, nonsense, fc.nat(), (hostile, value, at) => {
        const paths = numbers(hostile.elements)
        endsWell({ ...hostile, elements: replaced(hostile.elements, paths[at % paths.length]!, value) })
      }),
      settings,
    )
  })
})
