import type { Need } from '../../engine/supply/need.ts'
import { fail, type Result } from '../../engine/supply/result.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import { desk } from './desk.ts'

/** A supply to begin with, from the parts of the drawer at hand. */
export const begin = async (name: string, need: Need): Promise<Result<Supply>> => {
  const { proposeSupply } = await import('../../engine/search/propose.ts')
  // Lets the button say that work goes on before the work begins.
  await new Promise((resolve) => setTimeout(resolve, 30))
  const drawer = desk.get().drawer?.history.value
  if (drawer === undefined) return { ok: false, problems: [] }
  try {
    return proposeSupply(need, drawer, { name })
  } catch (error) {
    return fail('', error instanceof Error ? error.message : String(error))
  }
}
