import { expect, test } from 'vitest'
import { judged } from '../../../../test/reference/bench/supplies.ts'
import { at } from '../../supply/evaluation.ts'
import { benchOf } from './at-load.ts'
import { warmUp } from './warm-up.ts'

const { evaluation } = judged()
const { design } = evaluation
const bench = benchOf(design)
const full = bench.at('nominal', 1)!
const warm = warmUp(design, full)!

test('it ends at the temperatures of the readings', () => {
  const readings = at(evaluation, 'nominal-100')!.readings
  expect(warm.steady_C.transformer).toBeCloseTo(readings.transformer_C, 0)
  const case_C = readings.switchJunction_C - readings.switch_W * design.parts.switcher.junctionToCase_K_per_W
  expect(warm.steady_C.switcher).toBeCloseTo(case_C, 0)
})

test('it starts at the air and rises as one exponential a spot', () => {
  expect(warm.at('transformer', 0)).toBeCloseTo(full.operation.inside_C, 6)
  const rise = (t: number): number => warm.at('transformer', t) - full.operation.inside_C
  const whole = warm.steady_C.transformer - full.operation.inside_C
  // Closed form of one heat capacity: (1 - x)² at twice the time.
  const left = 1 - rise(300) / whole
  expect(1 - rise(600) / whole).toBeCloseTo(left * left, 6)
})

test('a 20 g core takes minutes, not seconds or hours, and settles within 2 K when it says so', () => {
  expect(warm.settle_s).toBeGreaterThan(300)
  expect(warm.settle_s).toBeLessThan(7200)
  for (const spot of ['switcher', 'rectifier', 'transformer', 'clamp'] as const)
    expect(Math.abs(warm.at(spot, warm.settle_s) - warm.steady_C[spot])).toBeLessThan(2.01)
})

test('readings at any load agree with those of the conditions', () => {
  for (const [load, id] of [
    [0, 'nominal-0'],
    [0.1, 'nominal-10'],
    [0.5, 'nominal-50'],
    [1, 'nominal-100'],
  ] as const) {
    const condition = at(evaluation, id)!.readings
    const own = bench.at('nominal', load)!.readings
    // The same solution found from another start: within 0.5 %.
    expect(own.input_W / condition.input_W).toBeCloseTo(1, 2)
    expect(own.clamp_V / condition.clamp_V).toBeCloseTo(1, 2)
  }
})
