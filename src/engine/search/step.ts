import { addCounts, type Counts, noCounts, searchBlock } from './block.ts'
import { type Answer, mergeFronts } from './front.ts'
import { Bench } from './lean/bench.ts'
import type { Space } from './space/space.ts'
import { fewSpares, type Held } from './spares.ts'

/** How far a search has come: plain data, to be kept and gone on from. */
export interface SearchState extends Held {
  /** Next of the space's blocks, and how many are skipped after each: workers share the blocks between them. */
  readonly next: number
  readonly stride: number
  readonly blocks: number
  readonly done: boolean
  readonly front: readonly Answer[]
  readonly counts: Counts
  /** The last of the front was not found among the candidates, but proposed for the need and mended. */
  readonly proposed?: true
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
  spares: [],
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
  let { next, front, counts, spares } = state
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
    if (result.spare) spares = [...spares, result.spare]
  }
  return {
    ...state,
    next,
    done: next >= space.blocks.length,
    front,
    counts,
    cores: sorted(cores),
    switchers: sorted(switchers),
    spares: fewSpares(spares, cores, switchers),
  }
}

const sorted = (set: ReadonlySet<number>): number[] => [...set].sort((a, b) => a - b)

/** The state with what other workers have found beside it: what that outdoes need not be looked at. */
export const alongside = (state: SearchState, front: readonly Answer[]): SearchState => ({
  ...state,
  front: mergeFronts(state.front, front),
})

/** Everything at once. */
export function searchAll(space: Space): SearchState {
  let state = beginSearch(space)
  while (!state.done) state = searchStep(space, state, Number.POSITIVE_INFINITY)
  return state
}

/** What several workers have found, as one. */
export function mergeStates(states: readonly SearchState[]): SearchState {
  const first = states[0]!
  const cores = new Set(states.flatMap((s) => s.cores))
  const switchers = new Set(states.flatMap((s) => s.switchers))
  const spares = states.flatMap((s) => s.spares)
  return {
    ...first,
    done: states.every((s) => s.done),
    front: mergeFronts(...states.map((s) => s.front)),
    counts: states.map((s) => s.counts).reduce(addCounts, noCounts),
    cores: sorted(cores),
    switchers: sorted(switchers),
    spares: fewSpares(spares, cores, switchers),
  }
}
