import { expect, it } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assessWhole, roomInWords } from './index.ts'

const all = demoSupplies().flatMap((supply) => {
  const judged = assessWhole(supply)
  return judged.ok ? judged.value.limits : []
})

it('names every limit by a noun that can be the subject of a sentence', () => {
  expect(all.length).toBeGreaterThan(100)
  for (const { title } of all) expect(title).not.toMatch(/[,.;:]/)
})

it('says of classes and counts that they are met, and shows the margin of everything else', () => {
  const percent = (fraction: number) => `${Math.round(fraction * 100)} %`
  for (const limit of all) {
    const room = Math.abs(limit.rating - limit.reading) / Math.abs(limit.rating)
    if (limit.discrete) expect(roomInWords(limit, percent)).toBe(limit.holds ? 'met' : 'not met')
    else if (limit.unit === 'V' && room < 9) expect(limit.margin).toBeCloseTo(room, 9)
  }
})
