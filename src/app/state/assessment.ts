import { type Assessment, assess } from '../../engine/limits/assess.ts'
import { fail, type Result } from '../../engine/supply/result.ts'
import type { Supply } from '../../engine/supply/supply.ts'

const known = new WeakMap<Supply, Result<Assessment>>()

/** A value outside a relation's range is thrown by the engine; here it is an answer like any other. */
const answer = (supply: Supply): Result<Assessment> => {
  try {
    return assess(supply)
  } catch (error) {
    return fail('', error instanceof Error ? error.message : String(error))
  }
}

/** The assessment of a supply; the same supply is assessed once. */
export const assessmentOf = (supply: Supply): Result<Assessment> => {
  const before = known.get(supply)
  if (before) return before
  const result = answer(supply)
  known.set(supply, result)
  return result
}
