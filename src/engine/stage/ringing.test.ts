import { expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assess } from '../limits/index.ts'
import { cornerById } from './corner.ts'
import { proveGroup } from './proved-corner.ts'

const bare = structuredClone(demoSupplies()[1]!)
const snubbed = structuredClone(bare)
snubbed.build.snubber = { resistor_ohm: 22, capacitor_F: 820e-12 }

// In continuous mode the current hands over at a stroke, as the closed form has it. It follows one ring with the losses
// of the winding and leaves out the bias winding and the edge of the other rectifier: 5 %.
test.each([
  ['without a snubber', bare],
  ['with a snubber', snubbed],
])('reverse peak of the rectifier %s: closed form against the circuit', (_, supply) => {
  const assessed = assess(supply)
  if (!assessed.ok) throw new Error('the demo is read')
  const corner = cornerById.get('maximum-crest-100-typical-warm')!
  const [solved] = proveGroup(assessed.value.evaluation.design, [corner])
  if (!solved!.ok) throw new Error(solved!.message)
  const reverse = solved!.comparisons.find((c) => c.id === 'rectifierReversePeak_V')!
  expect(Math.abs(reverse.difference)).toBeLessThan(0.05)
})
