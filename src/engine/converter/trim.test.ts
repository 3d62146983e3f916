import { expect, test } from 'vitest'
import { stageCycle } from './stage.ts'
import { raised } from './trim.ts'

// Second method: the cycle solved anew at the higher output, which draws as much more.
test.each([0.35, 0.1])('raising the output by a tenth, at %f A from the bulk', (average_A) => {
  const stage = {
    on_V: 88,
    reflected_V: 99,
    inductance_H: 910e-6,
    frequency_Hz: 1e5,
    average_A,
    minimumOnTime_s: 2e-7,
  }
  const h = 1.1
  const anew = stageCycle({ ...stage, reflected_V: 99 * h, average_A: average_A * h })
  const found = raised(stageCycle(stage), h)
  expect(found.peak_A).toBeCloseTo(anew.peak_A, 9)
  expect(found.duty).toBeCloseTo(anew.duty, 9)
})
