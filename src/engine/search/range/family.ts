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
 * Which core, former and chip of a drawer serve the most of several needs, each wound for its own: the most needs
 * first, then the smallest. Coarsely stepped, so that one that only just serves may be missed.
 */
export function families(needs: readonly Need[], drawer: Drawer): Family[] {
  const found = new Map<string, { family: Omit<Family, 'serves'>; serves: number[] }>()
  needs.forEach((need, index) => {
    const space = searchSpace(need, drawer, searchOptions('quick'))
    if (!space.ok) return
    const bench = benchOf(space.value)
    for (const block of space.value.blocks) {
      if (!searchBlock(bench, block, [], true).holds) continue
      const { core, former } = space.value.cores[block.core]!
      const switcher = space.value.switchers[block.switcher]!
      const key = `${core.id} ${former.id} ${switcher.id}`
      const entry = found.get(key) ?? {
        family: { core: core.id, former: former.id, switcher: switcher.id, size_cm3: sizeOf({ core }) },
        serves: [],
      }
      entry.serves.push(index)
      found.set(key, entry)
    }
  })
  return [...found.values()]
    .map(({ family, serves }) => ({ ...family, serves }))
    .sort((a, b) => b.serves.length - a.serves.length || a.size_cm3 - b.size_cm3)
}
