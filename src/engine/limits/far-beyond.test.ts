import { expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assess } from './index.ts'

test('far beyond a rating the limit is read where the reading is furthest', () => {
  const [demo] = demoSupplies()
  const { need, build, parts } = demo!
  if (need.source.kind !== 'mains') throw new Error('the demo is on the mains')
  const low = parts.map((part) =>
    part.id === build.places.bulkCapacitor && part.kind === 'capacitor' ? { ...part, voltage_V: 25 } : part,
  )
  const read = assess({ ...demo!, parts: low })
  if (!read.ok) throw new Error(read.problems[0]!.message)
  const limit = read.value.limits.find(({ id }) => id === 'bulk.voltage')!
  // The crest of the highest mains, less the bridge: one or two volts.
  const crest_V = Math.SQRT2 * need.source.maximum_Vrms
  expect(limit.condition).toMatch(/^maximum|^overload-maximum/)
  expect(crest_V - limit.reading).toBeGreaterThanOrEqual(0)
  expect(crest_V - limit.reading).toBeLessThan(4)
})
