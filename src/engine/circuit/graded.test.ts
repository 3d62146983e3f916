import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { buildCircuit } from './circuit.ts'
import { current } from './form.ts'
import { gradedBasis } from './graded.ts'
import type { Element } from './netlist.ts'
import { transient } from './transient.ts'

// Inductors that meet at an open diode have one motion of 1e12 to 1e20 per second between them, and slow ones that
// nobody would notice it beside. References: i(t) = i(0) e^(-R t / sum L), and the same network without its diodes.

const inductor = (name: string, a: string, b: string, inductance_H: number, initial_A = 0): Element => ({
  kind: 'inductor',
  name,
  a,
  b,
  inductance_H,
  initial_A,
})
const resistor = (name: string, a: string, b: string, resistance_ohm: number): Element => ({
  kind: 'resistor',
  name,
  a,
  b,
  resistance_ohm,
})
const openDiode = (name: string, at: string, from = '0'): Element => ({
  kind: 'diode',
  name,
  a: from,
  b: at,
  drop_V: 0.5,
  slope_ohm: 0.1,
})

function followed(elements: readonly Element[], span_s: number, names: readonly string[]) {
  const built = buildCircuit({ title: 'inductors at open diodes', elements })
  if (!built.ok) throw new Error(JSON.stringify(built.problems))
  const run = transient(built.circuit, {
    span_s,
    probes: Object.fromEntries(names.map((name) => [name, current(name)])),
    windows: [{ name: 'all', from_s: 0, to_s: span_s }],
    audit: true,
  })
  if (!run.ok) throw new Error(run.message)
  const end = new Map(built.circuit.stateNames.map((name, i) => [name, run.final.values[i]!]))
  return {
    figures: names.map((name) => ({
      end: end.get(`${name} A`)!,
      average: run.windows.all![name]!.average,
      rms: run.windows.all![name]!.rms,
    })),
    unbalanced: Math.abs(run.audit!.relativeError),
  }
}

const decades = (from: number, to: number) =>
  fc.double({ min: Math.log10(from), max: Math.log10(to), noNaN: true }).map((x) => 10 ** x)
const henries = (count: number) => fc.array(decades(1e-9, 1e-2), { minLength: 2, maxLength: count })

describe('inductors that meet at open diodes', () => {
  it('in series let their common current decay by the sum of them', () => {
    fc.assert(
      fc.property(henries(5), decades(0.1, 10), (all, ohm) => {
        const last = all.length
        const tau_s = all.reduce((sum, henry) => sum + henry, 0) / ohm
        const names = all.map((_, i) => `L${i}`)
        const { figures, unbalanced } = followed(
          [
            ...all.map((henry, i) => inductor(`L${i}`, i === 0 ? '0' : `m${i}`, `m${i + 1}`, henry, 1)),
            ...all.slice(1).map((_, i) => openDiode(`D${i}`, `m${i + 1}`)),
            resistor('R', `m${last}`, '0', ohm),
          ],
          tau_s,
          names,
        )
        // leakage of the diodes takes 1e-10 A/V, a part of 1e-9 per ohm and diode at most
        const leak = 1e-9 * ohm * last
        for (const { end, average, rms } of figures) {
          expect(Math.abs(end - Math.exp(-1))).toBeLessThan(leak)
          expect(Math.abs(average - (1 - Math.exp(-1)))).toBeLessThan(leak)
          expect(Math.abs(rms ** 2 - (1 - Math.exp(-2)) / 2)).toBeLessThan(2 * leak)
        }
        expect(unbalanced).toBeLessThan(1e-11)
      }),
      { seed: 20240612, numRuns: 100 },
    )
  })

  it('in stars move as they do without the diodes', () => {
    const branch = fc.record({ henry: decades(1e-9, 1e-3), ohm: decades(0.1, 10), star: fc.nat(2) })
    fc.assert(
      fc.property(fc.array(branch, { minLength: 6, maxLength: 9 }), henries(3), (branches, links) => {
        const names = branches.map((_, i) => `L${i}`)
        const slowest_s = Math.max(...branches.map(({ henry, ohm }) => henry / ohm))
        const network: Element[] = [
          { kind: 'voltage-source', name: 'V', a: 'v', b: '0', waveform: { kind: 'dc', value: 1 } },
          // far below every node, so that no diode conducts
          { kind: 'voltage-source', name: 'W', a: 'w', b: '0', waveform: { kind: 'dc', value: -2 } },
          ...branches.flatMap(({ henry, ohm, star }, i) => [
            inductor(`L${i}`, `x${i}`, `s${i < 3 ? i : star}`, henry),
            resistor(`R${i}`, i === 0 ? 'v' : '0', `x${i}`, ohm),
          ]),
          ...links.map((henry, i) => inductor(`K${i}`, `s${i % 3}`, `s${(i + 1) % 3}`, henry)),
          ...[0, 1, 2].map((star) => resistor(`Q${star}`, `s${star}`, '0', 1e7)),
        ]
        const diodes = [0, 1, 2].map((star) => openDiode(`D${star}`, `s${star}`, 'w'))
        const without = followed(network, 2 * slowest_s, names)
        const withThem = followed([...network, ...diodes], 2 * slowest_s, names)
        const size = Math.max(...without.figures.map(({ rms }) => rms))
        without.figures.forEach((one, i) => {
          const other = withThem.figures[i]!
          for (const of of ['end', 'average', 'rms'] as const)
            expect(Math.abs(one[of] - other[of])).toBeLessThan(1e-7 * size)
        })
        expect(withThem.unbalanced).toBeLessThan(1e-9)
      }),
      { seed: 20240613, numRuns: 60 },
    )
  })
})

describe('a graded basis', () => {
  it('is left aside where states are graded as they are', () => {
    expect(gradedBasis(Float64Array.of(-1e15, 1, 1, -1), 2)).toBeUndefined()
    expect(gradedBasis(Float64Array.of(-3, 1, 1, -1), 2)).toBeUndefined()
  })

  it('parts the common motion of two states from their difference', () => {
    const fast = 1e14
    const a = Float64Array.of(-fast, -fast, -fast, -fast - 2)
    const { up, down } = gradedBasis(a, 2)!
    const of = (m: Float64Array, n: Float64Array) =>
      [0, 1].flatMap((i) => [0, 1].map((j) => m[2 * i]! * n[j]! + m[2 * i + 1]! * n[2 + j]!))
    of(up, down).forEach((value, at) => {
      expect(value).toBeCloseTo(at % 3 === 0 ? 1 : 0, 12)
    })
    const own = of(Float64Array.from(of(up, a)), down)
    // what is left of the slow state is small: the determinant over the fast rate
    expect(Math.min(Math.abs(own[0]!), Math.abs(own[3]!))).toBeLessThan(3)
  })
})
