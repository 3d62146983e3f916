import { assess, withLoopLimits } from '../limits/index.ts'
import type { Spare } from './block.ts'
import { supplyFrom } from './space/candidate.ts'
import type { Space } from './space/space.ts'

/** What a search knows of cores and switchers. */
export interface Held {
  /** Cores and switchers, by their place in the space, that some supply of holds every limit. */
  readonly cores: readonly number[]
  readonly switchers: readonly number[]
  /** Supplies that may show the same of others. */
  readonly spares: readonly Spare[]
}

/** How many spares are kept for a core, and for a switcher, that nothing has been found with. */
const mostSpares = 3

/** Spares of use, from the widest margin on. */
export function fewSpares(
  spares: readonly Spare[],
  cores: ReadonlySet<number>,
  switchers: ReadonlySet<number>,
): readonly Spare[] {
  if (spares.length === 0) return spares
  const seen = new Map<string, number>()
  const count = (key: string): number => {
    const so = (seen.get(key) ?? 0) + 1
    seen.set(key, so)
    return so
  }
  return spares
    .filter(({ core, switcher }) => !cores.has(core) || !switchers.has(switcher))
    .sort((a, b) => b.margin - a.margin || a.core - b.core || a.switcher - b.switcher)
    .filter(({ core, switcher }) => {
      const ofCore = cores.has(core) ? mostSpares + 1 : count(`core ${core}`)
      const ofSwitcher = switchers.has(switcher) ? mostSpares + 1 : count(`switcher ${switcher}`)
      return Math.min(ofCore, ofSwitcher) <= mostSpares
    })
}

/** The same with those of its cores and switchers that a spare shows to be good for a supply that holds. */
export function withSpares(space: Space, state: Held): Held {
  const cores = new Set(state.cores)
  const switchers = new Set(state.switchers)
  for (const { core, switcher, build } of state.spares) {
    if (cores.has(core) && switchers.has(switcher)) continue
    const fast = assess(supplyFrom(space, build, ''))
    if (!fast.ok || !fast.value.holds || !withLoopLimits(fast.value).holds) continue
    cores.add(core)
    switchers.add(switcher)
  }
  return { cores: [...cores], switchers: [...switchers], spares: [] }
}
