import { describe, expect, test } from 'vitest'
import { assess } from '../limits/index.ts'
import { supply } from '../supply/supply.ts'
import { demoSupplies } from './index.ts'

describe('demo supplies', () => {
  test.each(demoSupplies().map((s) => [s.name, s] as const))(
    '%s is a valid file that holds every limit',
    (_, s) => {
      expect(supply.safeParse(s).error?.issues ?? []).toEqual([])
      const result = assess(s)
      expect(result.ok).toBe(true)
      if (result.ok)
        expect(result.value.limits.filter((limit) => !limit.holds).map((limit) => limit.id)).toEqual([])
    },
  )

  test('more primary turns cook the avalanche clamp of the work lights below full load', () => {
    const lights = structuredClone(demoSupplies()[1]!)
    lights.build.transformer.primaryTurns = 80
    lights.build.transformer.secondaryTurns = 11
    const result = assess(lights)
    expect(
      result.ok && result.value.limits.filter((limit) => !limit.holds).map((limit) => limit.id),
    ).toContain('clamp.avalanche-junction')
  })
})
