import { expect, test } from 'vitest'
import { judged } from '../../../test/reference/bench/supplies.ts'
import { heatCheck } from './heat-check.ts'
import { benchOf } from './unit/at-load.ts'
import { warmUp } from './unit/warm-up.ts'

const { evaluation } = judged()
const { design } = evaluation
const full = benchOf(design).at('nominal', 1)!
const { steady_C } = warmUp(design, full)!
const { input_W, output_W } = full.readings
const read = (
  more: Partial<Record<'switcher' | 'rectifier' | 'transformer' | 'clamp', number>>,
  extra_W = 0,
) =>
  heatCheck(evaluation, {
    input_W: input_W + extra_W,
    output_W,
    ambient_C: 25,
    temperature_C: {
      switcher: steady_C.switcher + (more.switcher ?? 0),
      rectifier: steady_C.rectifier + (more.rectifier ?? 0),
      transformer: steady_C.transformer + (more.transformer ?? 0),
    },
  })

test('as planned: nothing is out of line and the loss closes', () => {
  const r = read({})
  expect(r.ok && r.outOfLine).toBeNull()
  expect(r.ok && r.loss_W / r.expectedLoss_W).toBeCloseTo(1, 2)
})

test('three temperatures and the powers name the hot part', () => {
  for (const spot of ['switcher', 'rectifier', 'transformer'] as const) {
    const rise = steady_C[spot] - 25
    const power = {
      switcher: full.readings.switch_W,
      rectifier: full.readings.rectifier_W,
      transformer: full.readings.transformer_W,
    }
    // The spot burns its own power again: rise doubled, input up by the same watts.
    const r = read({ [spot]: rise }, power[spot])
    expect(r.ok && r.outOfLine?.spot).toBe(spot)
    expect(r.ok && r.outOfLine!.excess_W / power[spot]).toBeCloseTo(1, 1)
  }
})

test('loss that no thermometer shows is elsewhere', () => {
  const r = read({}, 4)
  expect(r.ok && r.outOfLine?.spot).toBe('elsewhere')
})

test('impossible powers are refused by name', () => {
  const bad = heatCheck(evaluation, { input_W: 10, output_W: 24, ambient_C: 25, temperature_C: {} })
  expect(bad.ok).toBe(false)
  expect(!bad.ok && bad.message).toMatch(/input_W/)
})
