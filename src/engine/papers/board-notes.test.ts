import { expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assess } from '../limits/index.ts'
import { formatQuantity } from '../quantity/index.ts'
import { greatest } from '../supply/evaluation.ts'
import { boardNotes } from './board-notes.ts'

test.each(demoSupplies())('$name: the board says the energy that the reading says', (supply) => {
  const judged = assess(supply)
  if (!judged.ok) throw new Error('the demo is read')
  const { evaluation, limits } = judged.value
  const most_J = greatest(evaluation, 'bulkEnergy_J')!.readings.bulkEnergy_J
  expect(JSON.stringify(boardNotes(evaluation, limits))).toContain(formatQuantity(most_J, 'J', 2))
})
