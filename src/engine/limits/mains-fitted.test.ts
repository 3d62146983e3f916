import { expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import type { Places } from '../supply/build.ts'
import type { Supply } from '../supply/supply.ts'
import { assess } from './index.ts'

const [charger] = demoSupplies() as [Supply]

const brokenWithout = (place: keyof Places): string[] => {
  const { build } = charger
  const judged = assess({ ...charger, build: { ...build, places: { ...build.places, [place]: null } } })
  if (!judged.ok) throw new Error(judged.problems[0]!.message)
  return judged.value.limits.filter(({ holds }) => !holds).map(({ id }) => id)
}

// Common practice, no source: a stage runs from rectified mains, and a fuse is the first part behind the plug.
test.each([
  ['bridge', 'bridge.fitted'],
  ['fuse', 'fuse.fitted'],
] as const)('a mains supply without %s breaks a limit that says so', (place, limit) => {
  expect(brokenWithout(place)).toContain(limit)
})
