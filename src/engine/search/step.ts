import { addCounts, type Counts, noCounts, searchBlock } from './block.ts'
import { type Answer, mergeFronts } from './front.ts'
import { Bench } from './lean/bench.ts'
import type { Space } from './space/space.ts'

/** How far a search has come: plain data, to be kept and gone on from. */
export interface SearchState {
  /** Next of the space's blocks, and how many are skipped after each: workers share the blocks between them. */
  readonly next: number
  readonly stride: number
  readonly blocks: number
  readonly done: boolean
  readonly front: readonly Answer[]
  readonly counts: Counts
  /** Cores and switchers, by their place in the space, that some supply of holds every limit. */
  readonly cores: readonly number[]
  readonly switchers: readonly number[]
}

/** The search before its first step; `share` of `of` workers. */
export const beginSearch = (space: Space, share = 0, of = 1): SearchState => ({
  next: share,
  stride: of,
  blocks: space.blocks.length,
  done: share >= space.blocks.length,
  front: [],
  counts: noCounts,
  cores: [],
  switchers: [],
})

const benches = new WeakMap<Space, Bench>()

export function benchOf(space: Space): Bench {
  let bench = benches.get(space)
  if (!bench) {
    bench = new Bench(space)
    benches.set(space, bench)
  }
  return bench
}

/**
 * Goes on with a search until about `budget` candidates have been decided, at least one block. A pure step: the same
 * state and space give the same next state, so that a search may be stopped, kept and resumed.
 */
export function searchStep(space: Space, state: SearchState, budget: number): SearchState {
  const bench = benchOf(space)
  let { next, front, counts } = state
  const cores = new Set(state.cores)
  const switchers = new Set(state.switchers)
  for (let spent = 0; next < space.blocks.length && spent < budget; next += state.stride) {
    const block = space.blocks[next]!
    const result = searchBlock(bench, block, front, !cores.has(block.core) || !switchers.has(block.switcher))
    front = result.front
    counts = addCounts(counts, result.counts)
    spent += result.counts.decided + 50 * result.counts.assessed + 200
    if (result.holds) {
      cores.add(block.core)
      switchers.add(block.switcher)
    }
  }
  const sorted = (set: Set<number>) => [...set].sort((a, b) => a - b)
  return {
    ...state,
    next,
    done: next >= space.blocks.length,
    front,
    counts,
    cores: sorted(cores),
    switchers: sorted(switchers),
  }
}

/** Everything at once. */
export function searchAll(space: Space): SearchState {
  let state = beginSearch(space)
  while (!state.done) state = searchStep(space, state, Number.POSITIVE_INFINITY)
  return state
}

/** What several workers have found, as one. */
export function mergeStates(states: readonly SearchState[]): SearchState {
  const first = states[0]!
  const union = (pick: (s: SearchState) => readonly number[]) =>
    [...new Set(states.flatMap(pick))].sort((a, b) => a - b)
  return {
    ...first,
    done: states.every((s) => s.done),
    front: mergeFronts(...states.map((s) => s.front)),
    counts: states.map((s) => s.counts).reduce(addCounts, noCounts),
    cores: union((s) => s.cores),
    switchers: union((s) => s.switchers),
  }
}
