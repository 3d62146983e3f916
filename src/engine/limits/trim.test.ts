import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { resolve } from '../supply/evaluate.ts'
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

// Second method: the built supply judged anew at each end of its trim, with nothing else changed.
describe.each(demoSupplies())('$name trimmed by a tenth', (supply) => {
  const wide = (low_V: number, output_V: number, high_V: number) => {
    const built = resolve(supply)
    if (!built.ok) throw new Error('the demo is settled')
    const { transformer: t, clamp } = built.value
    const judged = assess({
      ...supply,
      need: { ...supply.need, trimLow_V: low_V, output_V, trimHigh_V: high_V },
      build: {
        ...supply.build,
        clamp: { ...clamp, style: clamp.style },
        transformer: {
          ...supply.build.transformer,
          ...{ primaryTurns: t.primaryTurns, secondaryTurns: t.secondaryTurns, biasTurns: t.biasTurns },
          ...{ gap_m: t.gap_m, primaryInHand: t.primaryInHand, secondaryInHand: t.secondaryInHand },
        },
      },
    })
    if (!judged.ok) throw new Error('the demo is read')
    return new Map(judged.value.limits.map((l) => [l.id, l.margin]))
  }
  const { output_V } = supply.need
  const whole = wide(0.9 * output_V, output_V, 1.1 * output_V)
  // what belongs to the divider and the lamp beside it is another divider then
  const ofDivider = /^(output|indicator|trimmer|optocoupler|reference)\./

  test('low: nothing is weaker than it was said to be', () => {
    for (const [id, margin] of wide(0.9 * output_V, 0.9 * output_V, 0.9 * output_V))
      if (!ofDivider.test(id)) expect(margin, id).toBeGreaterThan(Math.min(1, whole.get(id)!) - 0.01)
  })
  // Losses do not quite grow with the output: 1.5 % of the limit.
  test.each(['switcher.peak-current', 'switcher.duty', 'switcher.drain-margin', 'rectifier.reverse'])(
    'high: %s is what it was said to be',
    (id) => {
      const high = wide(1.1 * output_V, 1.1 * output_V, 1.1 * output_V)
      expect(Math.abs(high.get(id)! - whole.get(id)!)).toBeLessThan(0.015)
    },
  )
})
