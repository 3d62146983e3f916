import { expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assess } from './assess.ts'
import { limits } from './limits.ts'

const assessed = assess(demoSupplies()[0]!)
if (!assessed.ok) throw new Error('the demo is read')
const { evaluation } = assessed.value
const { design } = evaluation
/** Reading and rating of a limit with the output trimmed up to a voltage. */
const at = (id: string, trimHigh_V: number) =>
  limits({ ...evaluation, design: { ...design, need: { ...design.need, trimHigh_V } } }).find(
    (l) => l.id === id,
  )!

// Kirchhoff: the rectifier stands output plus reflected bulk; the drain stands bulk plus n times the output.
test('the highest trim is what power, rectifier and drain are judged at', () => {
  const { output_V, output_A } = design.need
  const up = 1.5
  expect(at('supply.power', output_V + up).rating).toBeCloseTo((output_V + up) * output_A, 9)
  const rise = (id: string) => at(id, output_V + up).reading - at(id, output_V).reading
  expect(rise('rectifier.reverse')).toBeCloseTo(up, 9)
  expect(rise('switcher.drain-margin')).toBeCloseTo(up * design.transformer.turnsRatio, 9)
})
