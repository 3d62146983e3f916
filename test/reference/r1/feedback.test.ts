import { expect, test } from 'vitest'
import { at, evaluate, resolve } from '../../../src/engine/supply/evaluate.ts'
import type { Supply } from '../../../src/engine/supply/supply.ts'
import { r1 } from './r1.ts'

const read = (supply: Supply) => {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]!.message)
  return evaluate(design.value)
}

/** Pin current 2 to 6 mA, transfer ratio 1 to 2, 0.7 of it at end of life, LED 1.2 V, reference 2.5 V and 1 mA. */
const e = read(r1())
const { feedback } = e.design

test('the LED resistor is bracketed by the greatest LED current', () => {
  // (12 - 1.2 - 2.5) V over 6 mA / (1 × 0.7 × 0.75, hot), beyond the 10 mA of the test, and the resistor across the LED.
  const most_ohm = (12 - 1.2 - 2.5) / (6e-3 / (0.7 * 0.75) + 1.2 / feedback.biasResistor_ohm)
  expect(feedback.ledResistorMaximum_ohm).toBeCloseTo(most_ohm, 6)
  expect(feedback.ledResistor_ohm).toBeLessThan(most_ohm)
  expect(at(e, 'maximum-0')!.readings.cathode_V).toBeGreaterThan(2.5)
})

test('the reference keeps its current where the LED is dimmest', () => {
  // At least 2 mA / 2.2 (strong and cold) through the LED at full power, and 1.2 V over the resistor beside it.
  expect(2e-3 / 2.2 + 1.2 / feedback.biasResistor_ohm).toBeGreaterThan(1e-3)
  for (const c of e.conditions)
    if (c.runs && c.condition.kind === 'steady')
      expect(c.readings.cathodeCurrent_A).toBeGreaterThanOrEqual(1e-3)
})

test('back-fed from the bench, the LED is dark 1 % below the set voltage and lit 1 % above', () => {
  expect(e.fixed.feedbackOn_V).toBeCloseTo(0.99 * e.fixed.outputSet_V, 9)
  expect(e.fixed.feedbackFull_V).toBeCloseTo(1.01 * e.fixed.outputSet_V, 9)
})

test('a trimmer in the lower arm reaches the range asked for', () => {
  const trimmed = read(
    r1({ need: { trimLow_V: 11.4, trimHigh_V: 12.6 }, build: { places: { trimmer: 'trimmer-500' } } }),
  )
  expect(trimmed.fixed.outputLow_V).toBeLessThanOrEqual(11.4)
  expect(trimmed.fixed.outputHigh_V).toBeGreaterThanOrEqual(12.6)
})

test('every planned inductance carries the spread of gap and ferrite, every measured one that of its meter', () => {
  const planned = e.design.transformer.primaryInductance_H
  expect(planned.maximum / planned.typical).toBeGreaterThan(1.05)
  expect(planned.maximum / planned.typical).toBeLessThan(1.15)
  const meter = { value: 900e-6, instrument: 'LCR meter', frequency_Hz: 1e4, accuracy: 0.02 }
  const measured = read(r1({ asBuilt: { primaryInductance_H: meter } })).design.transformer
    .primaryInductance_H
  expect(measured.minimum).toBeCloseTo(882e-6, 12)
  expect(measured.maximum).toBeCloseTo(918e-6, 12)
})
