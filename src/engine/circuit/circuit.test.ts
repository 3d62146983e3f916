import { describe, expect, it } from 'vitest'
import { buildCircuit } from './circuit.ts'
import { voltage } from './form.ts'
import type { Element } from './netlist.ts'

const problems = (...elements: Element[]) => {
  const built = buildCircuit({ title: 'test', elements })
  return built.ok ? [] : built.problems
}
const r = (name: string, a: string, b: string, resistance_ohm = 1): Element => ({
  kind: 'resistor',
  name,
  a,
  b,
  resistance_ohm,
})
const v = (name: string, a: string, b: string): Element => ({
  kind: 'voltage-source',
  name,
  a,
  b,
  waveform: { kind: 'dc', value: 1 },
})

describe('a netlist that cannot be solved is refused by name', () => {
  it('nonsense value', () => {
    expect(problems(r('R1', 'a', '0', Number.NaN))[0]).toMatchObject({
      code: 'bad-value',
      elements: ['R1'],
      message: 'R1: resistance_ohm is NaN, must be positive and finite',
    })
  })
  it('two elements of one name', () => {
    expect(problems(r('R1', 'a', '0'), r('R1', 'a', '0'))[0]?.code).toBe('duplicate-name')
  })
  it('floating node', () => {
    expect(problems(v('V', 'a', '0'), r('R1', 'a', '0'), r('R2', 'x', 'y'))[0]).toMatchObject({
      code: 'floating-node',
      nodes: ['x', 'y'],
    })
  })
  it('floating secondary of a transformer', () => {
    const found = problems(
      v('V', 'a', '0'),
      {
        kind: 'ideal-transformer',
        name: 'T',
        windings: [
          { a: 'a', b: '0', turns: 10 },
          { a: 's', b: 't', turns: 1 },
        ],
      },
      r('R', 's', 't'),
    )
    expect(found[0]).toMatchObject({ code: 'floating-node', nodes: ['s', 't'] })
  })
  it('loop of ideal sources', () => {
    expect(problems(v('V1', 'a', '0'), v('V2', 'a', '0'))[0]).toMatchObject({
      code: 'voltage-loop',
      elements: ['V1', 'V2'],
    })
  })
  it('current source without a way back', () => {
    const i: Element = {
      kind: 'current-source',
      name: 'I1',
      a: '0',
      b: 'x',
      waveform: { kind: 'dc', value: 1 },
    }
    expect(problems(i)[0]).toMatchObject({ code: 'current-cutset', elements: ['I1'], nodes: ['x'] })
  })
  it('couplings that no windings can have', () => {
    const windings = [0, 1, 2].map((w) => ({ a: `a${w}`, b: '0', inductance_H: 1e-3 }))
    const coupled = (k: readonly number[]): Element => ({
      kind: 'coupled-inductors',
      name: 'T',
      windings,
      couplings: [
        { of: [0, 1], k: k[0]! },
        { of: [1, 2], k: k[1]! },
        { of: [0, 2], k: k[2]! },
      ],
    })
    expect(problems(coupled([0.99, 0.99, 0.5]))[0]?.code).toBe('coupling')
    expect(problems(coupled([1, 0.5, 0.5]))[0]?.message).toContain('must be below 1')
    expect(problems(coupled([0.99, 0.99, 0.985]))).toEqual([])
  })
  it('form that names what is not there', () => {
    const e: Element = { kind: 'controlled-voltage', name: 'E', a: 'a', b: '0', value: voltage('nowhere') }
    expect(problems(e, r('R', 'a', '0'))[0]).toMatchObject({ code: 'unknown-name', nodes: ['nowhere'] })
  })
  it('amplifier that fights itself', () => {
    const e: Element = { kind: 'controlled-voltage', name: 'E', a: 'a', b: '0', value: voltage('a') }
    expect(problems(e, r('R', 'a', '0'))[0]?.code).toMatch(/singular|voltage-loop/)
  })
})
