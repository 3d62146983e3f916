import { expect, test } from 'vitest'
import { r1 } from '../../../../test/reference/r1/r1.ts'
import { at, evaluate, resolve } from '../evaluate.ts'

const measured = (value: number) => ({ value, instrument: 'as marked', frequency_Hz: 120, accuracy: 0.01 })

/** R1 at a lighter load with a small bulk capacitor, read at the lowest input. */
function read(output_A: number, bulk_F: number) {
  const design = resolve(
    r1({ need: { output_A }, asBuilt: { bulkCapacitance_F: measured(bulk_F) } } as Parameters<typeof r1>[0]),
  )
  if (!design.ok) throw new Error(design.problems[0]!.message)
  const evaluation = evaluate(design.value)
  return { full: at(evaluation, 'flux-corner'), over: at(evaluation, 'overload-minimum') }
}

// What a stage carries at its full load it carries at least when it gives all it can: the more it draws the more the bulk
// sags, and somewhere the two meet. Conservation of energy, whatever the bulk.
test.each(
  [0.4, 0.7, 1].flatMap((amps) => [12e-6, 15e-6, 18e-6, 22e-6, 27e-6, 33e-6].map((farads) => [amps, farads])),
)('overload at the lowest input: %f A from %f F', (amps, farads) => {
  const { full, over } = read(amps!, farads!)
  if (full === null) return
  expect(over).not.toBeNull()
  const { readings: r } = over!
  expect(r.output_A).toBeGreaterThan(0.98 * full.readings.output_A)
  expect(r.input_W).toBeCloseTo(r.output_W + r.loss_W, 6)
  expect(r.primaryAverage_A * r.bulkMean_V).toBeGreaterThan(r.output_W)
  expect(r.bulkMinimum_V).toBeLessThanOrEqual(full.readings.bulkMinimum_V + 0.5)
})
