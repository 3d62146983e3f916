import type { Drawer } from '../../parts/part.ts'
import type { Need } from '../../supply/need.ts'
import { searchBlock } from '../block.ts'
import { sizeOf } from '../measures.ts'
import { searchOptions } from '../space/options.ts'
import { searchSpace } from '../space/space.ts'
import { benchOf } from '../step.ts'

/** One core, former and chip that several supplies can be built round. */
export interface Family {
  readonly core: string
  readonly former: string
  readonly switcher: string
  readonly size_cm3: number
  /** Which of the needs it serves, by their place in the list. */
  readonly serves: readonly number[]
}

/**
 * Which cores, formers and chips of a drawer serve a need. Coarsely stepped, so that one that only just serves may be
 * missed.
 */
export function serversOf(need: Need, drawer: Drawer): Omit<Family, 'serves'>[] {
  const space = searchSpace(need, drawer, searchOptions('quick'))
  if (!space.ok) return []
  const { cores, switchers, blocks } = space.value
  const bench = benchOf(space.value)
  return blocks
    .filter((block) => searchBlock(bench, block, [], true).holds)
    .map((block) => {
      const { core, former } = cores[block.core]!
      return {
        core: core.id,
        former: former.id,
        switcher: switchers[block.switcher]!.id,
        size_cm3: sizeOf({ core }),
      }
    })
}

/** What serves each need, put together: what serves the most needs first, then the smallest. */
export function familiesOf(servers: readonly (readonly Omit<Family, 'serves'>[])[]): Family[] {
  const found = new Map<string, Family & { serves: number[] }>()
  servers.forEach((list, index) => {
    for (const one of list) {
      const key = `${one.core} ${one.former} ${one.switcher}`
      const entry = found.get(key) ?? { ...one, serves: [] }
      entry.serves.push(index)
      found.set(key, entry)
    }
  })
  return [...found.values()].sort((a, b) => b.serves.length - a.serves.length || a.size_cm3 - b.size_cm3)
}

/** Which core, former and chip of a drawer serve the most of several needs, each wound for its own. */
export const families = (needs: readonly Need[], drawer: Drawer): Family[] =>
  familiesOf(needs.map((need) => serversOf(need, drawer)))
