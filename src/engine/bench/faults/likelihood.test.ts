import { expect, test } from 'vitest'
import { deviation, logLikelihood, overlap, stretched } from './likelihood.ts'
import type { Trace } from './types.ts'

const number = (value: number, spread = 0.05): Extract<Trace, { kind: 'number' }> => ({
  kind: 'number',
  value,
  spread,
})
const check = 'transformer.inductance'

test('a density integrates to one over the stretched scale', () => {
  const trace = number(900e-6)
  const middle = stretched(check, trace.value)
  const floor = 1e-6
  let sum = 0
  const step = 0.001
  for (let u = middle - 1.5; u < middle + 1.5; u += step)
    sum += Math.exp(logLikelihood(check, trace, 2 * floor * Math.sinh(u))) * step
  // 1 % is set aside for blunders, spread far wider than this window.
  expect(sum).toBeGreaterThan(0.985)
  expect(sum).toBeLessThan(1.005)
})

test('overlap of two normal distributions is the integral of the root of their product', () => {
  const a = number(900e-6, 0.05)
  const b = number(1000e-6, 0.12)
  const [ma, mb] = [a, b].map((t) => stretched(check, t.value)) as [number, number]
  const [sa, sb] = [a, b].map((t) => deviation(check, t)) as [number, number]
  const bell = (u: number, m: number, s: number): number =>
    Math.exp(-0.5 * ((u - m) / s) ** 2) / (s * Math.sqrt(2 * Math.PI))
  let sum = 0
  for (let u = ma - 2; u < ma + 2; u += 1e-4) sum += Math.sqrt(bell(u, ma, sa) * bell(u, mb, sb)) * 1e-4
  expect(overlap(check, a, b)).toBeCloseTo(sum, 4)
})

test('alike overlaps wholly, far apart not at all, unknown tells nothing', () => {
  expect(overlap(check, number(1e-3), number(1e-3))).toBeCloseTo(1, 9)
  expect(overlap(check, number(1e-3), number(5e-3))).toBeLessThan(1e-6)
  expect(overlap(check, undefined, number(1e-3))).toBe(1)
  const sure: Trace = { kind: 'state', chances: { yes: 0.98, no: 0.02 } }
  const not: Trace = { kind: 'state', chances: { yes: 0.02, no: 0.98 } }
  expect(overlap('lamp.clicks', sure, not)).toBeCloseTo(2 * Math.sqrt(0.98 * 0.02), 9)
})

test('small values count by what the instrument tells apart, large by ratio, either sign', () => {
  expect(stretched('lamp.output', 0)).toBe(0)
  expect(stretched('lamp.output', -3)).toBeCloseTo(-stretched('lamp.output', 3), 12)
  expect(stretched('lamp.output', 24) - stretched('lamp.output', 12)).toBeCloseTo(Math.LN2, 3)
})
