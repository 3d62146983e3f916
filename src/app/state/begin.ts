import type { Need } from '../../engine/supply/need.ts'
import type { Result } from '../../engine/supply/result.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import { desk } from './desk.ts'

/** A supply to begin with, from the drawer at hand. */
export const begin = async (name: string, need: Need): Promise<Result<Supply>> => {
  const { beginSupply } = await import('../begin/begin.ts')
  const drawer = desk.get().drawer?.history.value
  return drawer ? beginSupply(name, need, drawer) : { ok: false, problems: [] }
}
