import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../demo/index.ts'
import { assess } from '../limits/index.ts'
import type { Supply } from '../supply/supply.ts'
import { cornerById, gatherProof, proveGroup } from './index.ts'

const [charger] = demoSupplies() as [Supply]

/** The charger with a ferrite that saturates so much sooner. */
const withFerrite = (share: number): Supply => ({
  ...charger,
  parts: charger.parts.map((part) =>
    part.kind === 'material'
      ? { ...part, saturation: part.saturation.map((p) => ({ ...p, flux_T: share * p.flux_T })) }
      : part,
  ),
})

const saturationOf = (supply: Supply) => {
  const judged = assess(supply)
  if (!judged.ok) throw new Error(judged.problems[0]!.message)
  const { evaluation, limits } = judged.value
  const [corner] = proveGroup(evaluation.design, [cornerById.get('overload-maximum')!])
  if (!corner!.ok) throw new Error(corner!.message)
  const closed = limits.find(({ id }) => id === 'core.saturation')!
  const solved = gatherProof(evaluation, [corner!]).limits.find(
    ({ limit }) => limit.id === 'core.saturation',
  )!.limit
  const current = corner!.comparisons.find(({ id }) => id === 'primaryPeak_A')!
  return { closed, solved, climbed: current.solved / current.closed }
}

describe('a core that nears saturation at the current limit', () => {
  const { closed } = saturationOf(charger)
  // Just beyond what the closed form reads, 3 % of room left.
  const near = saturationOf(withFerrite((1.03 * closed.reading) / closed.rating))
  const far = saturationOf(withFerrite(1))

  test('lets the current climb further than one that is far from it', () => {
    expect(near.closed.margin).toBeLessThan(0.04)
    expect(near.climbed).toBeGreaterThan(far.climbed + 0.005)
  })
  test('its flux stays what volts and time make of it', () => {
    // Volt-seconds: what the solved circuit reads is no more than the closed form does with an inductance that does not
    // fall, but for the bulk, whose crest the closed form takes (2 %).
    expect(near.solved.reading / near.closed.reading).toBeLessThan(1.02)
    expect(near.solved.reading / near.closed.reading).toBeGreaterThan(0.85)
  })
})
