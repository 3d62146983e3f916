import { expect, test } from 'vitest'
import { r1 } from '../../../../test/reference/r1/r1.ts'
import { resolve } from './resolve.ts'

const measured = (value: number, accuracy: number) => ({
  value,
  instrument: 'LCR meter',
  frequency_Hz: 120,
  accuracy,
})

// A reading typed in the wrong unit, or of a meter that tells nothing, is named and not calculated with.
test.each([
  [68, 0.01],
  [68e-12, 0.01],
  [68e-6, 1],
])('refuses a bulk capacitance of %f F read within %f of itself', (value, accuracy) => {
  const refused = resolve(
    r1({ asBuilt: { bulkCapacitance_F: measured(value, accuracy) } } as Parameters<typeof r1>[0]),
  )
  expect(refused).toMatchObject({ ok: false, problems: [{ path: 'bench.asBuilt.bulkCapacitance_F' }] })
})
