import { expect, test } from 'vitest'
import { faultDefinitions } from './faults/table.ts'
import { firstNoiseStep, noisePath, noiseSteps, noiseVerdicts } from './noise-path.ts'

test('sound at 0 to 5 % load with a steady output is normal burst', () => {
  const end = noisePath({ kind: 'heard', load: 'light', steady: 'yes' })
  expect(end).toMatchObject({ kind: 'verdict', verdict: { id: 'burst', urgency: 'normal' } })
})

test('sound above 80 % load: stop and check saturation and overload', () => {
  const end = noisePath({ kind: 'heard', load: 'heavy' })
  expect(end).toMatchObject({ kind: 'verdict', verdict: { id: 'overload', urgency: 'stop' } })
})

test('rings of 3 to 12 MHz are the drain, of 20 to 30 MHz the rectifier', () => {
  expect(noisePath({ kind: 'radio', ring: 'drain' })).toMatchObject({ verdict: { id: 'drain' } })
  expect(noisePath({ kind: 'radio', ring: 'rectifier' })).toMatchObject({ verdict: { id: 'rectifier' } })
})

test('without an answer it asks, and asks again after one that is none', () => {
  expect(noisePath({})).toMatchObject({ kind: 'ask', step: { id: firstNoiseStep } })
  expect(noisePath({ kind: 'smell' })).toMatchObject({ kind: 'ask', step: { id: firstNoiseStep } })
})

test('every answer leads on, every question and verdict is reached, faults are in the table', () => {
  const ids = new Set([...noiseSteps.map((s) => s.id), ...noiseVerdicts.map((v) => v.id)])
  const reached = new Set([firstNoiseStep, ...noiseSteps.flatMap((s) => s.answers.map((a) => a.next))])
  expect([...reached].every((id) => ids.has(id))).toBe(true)
  expect([...ids].every((id) => reached.has(id))).toBe(true)
  const faults = new Set(faultDefinitions.map((f) => f.id))
  for (const v of noiseVerdicts) for (const f of v.faults) expect(faults.has(f), f).toBe(true)
})
