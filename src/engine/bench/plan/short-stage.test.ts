import { expect, test } from 'vitest'
import { demoSupplies } from '../../demo/index.ts'
import { assess } from '../../limits/index.ts'
import { powerUpPlan } from './power-up-plan.ts'

const shortStage = (change: (build: ReturnType<typeof demoSupplies>[number]) => void) => {
  const supply = structuredClone(demoSupplies()[1]!)
  change(supply)
  const assessed = assess(supply)
  if (!assessed.ok) throw new Error('the demo is read')
  return powerUpPlan(assessed.value.evaluation, []).stages.find((stage) => stage.id === 'short')!
}

test('the short is asked for where core and drain stand it', () =>
  expect(shortStage(() => {}).setUp.join(' ')).toContain('Thick short wire'))

// B = L I / (N A) climbs with the current; above the saturation of the ferrite nothing limits it any more
test('the short is withheld, with its reason, where a chip that skips no pulses would saturate the core', () => {
  const stage = shortStage((supply) => {
    for (const part of supply.parts) if (part.kind === 'switcher') part.skipsPulsesWhenShorted = false
  })
  expect(stage.purpose).toContain('saturates')
  expect(stage.setUp.join(' ')).not.toContain('Thick short wire')
})
