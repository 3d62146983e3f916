import { type Assessment, assess } from '../../engine/limits/assess.ts'
import type { Result } from '../../engine/supply/result.ts'
import type { Supply } from '../../engine/supply/supply.ts'

const known = new WeakMap<Supply, Result<Assessment>>()

/** The assessment of a supply; the same supply is assessed once. */
export const assessmentOf = (supply: Supply): Result<Assessment> => {
  const before = known.get(supply)
  if (before) return before
  const result = assess(supply)
  known.set(supply, result)
  return result
}
