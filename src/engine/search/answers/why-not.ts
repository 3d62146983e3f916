import { type Assessment, assess, type Limit, withLoopLimits } from '../../limits/index.ts'
import { tryCopper } from '../block.ts'
import { gapOf } from '../lean/bench.ts'
import { frameBreaks, gapBreaks } from '../lean/frame-limits.ts'
import { newTally } from '../lean/tally.ts'
import { buildOf, type Candidate, copperOf, supplyFrom } from '../space/candidate.ts'
import { framesOf, type Ground, groundOf } from '../space/frames.ts'
import { type Block, farFromUsual, type Space } from '../space/space.ts'
import { benchOf, type SearchState } from '../step.ts'
import { limitText, remedyText } from './words.ts'

/** Why a core or a chip has no answer: what stops its nearest candidate. */
export interface WhyNot {
  readonly of: 'core' | 'switcher'
  readonly id: string
  readonly name: string
  /** The limit that stops the nearest candidate; null where no candidate can be put together at all. */
  readonly limit: Limit | null
  readonly sentence: string
}

/** Candidates looked at for each core or chip, spread over all of them. */
const looks = 90
/** How many other parts a core or a chip is tried with: those of about the right size. */
const partners = 3

/**
 * For every core and every chip that no supply was found with: the candidate nearest to holding, and the limit that it
 * breaks most. Candidates are looked at in even steps, so that a nearer one may lie between.
 */
export function whyNot(space: Space, state: SearchState): WhyNot[] {
  const without = (of: 'core' | 'switcher', count: number, held: readonly number[]) =>
    Array.from({ length: count }, (_, index) => index)
      .filter((index) => !held.includes(index))
      .map((index) => explain(space, of, index))
      .filter((reason) => reason !== null)
  const bare = space.unusable.map(
    (core): WhyNot => ({
      of: 'core',
      id: core.id,
      name: core.name,
      limit: null,
      sentence: `${core.name}: no former of the drawer fits it; add one.`,
    }),
  )
  return [
    ...without('core', space.cores.length, state.cores),
    ...bare,
    ...without('switcher', space.switchers.length, state.switchers),
  ]
}

/** What stops a core or chip; null where its nearest candidate holds, and other supplies only outdo it. */
function explain(space: Space, of: 'core' | 'switcher', index: number): WhyNot | null {
  const part = of === 'core' ? space.cores[index]!.core : space.switchers[index]!
  const off = (b: Block) => farFromUsual(space.cores[b.core]!, space.switchers[b.switcher]!, space.sizing)
  const blocks = space.blocks
    .filter((b) => b[of] === index)
    .sort((a, b) => off(a) - off(b))
    .slice(0, partners)
  const nearest = blocks
    .map((block) => nearestOf(space, block))
    .filter((found) => found !== null)
    .sort((a, b) => b.givesFirst.margin - a.givesFirst.margin)[0]
  const base = { of, id: part.id, name: part.name }
  if (!nearest)
    return {
      ...base,
      limit: null,
      sentence: `${part.name}: no turns and gap give a transformer that fits it at all.`,
    }
  if (nearest.holds) return null
  const limit = nearest.givesFirst
  return { ...base, limit, sentence: `${part.name}: ${limitText(limit)}; ${remedyText(limit)}.` }
}

/** The candidate of a block nearest to holding, judged as a whole. */
function nearestOf(space: Space, block: Block): Assessment | null {
  const ground = groundOf(space, block)
  if (ground === null) return null
  const best = spread(space, ground)
    .map((candidate) => ({ candidate, margin: leanMargin(space, ground, candidate) }))
    .sort((a, b) => b.margin - a.margin)
  for (const { candidate } of best.slice(0, 6)) {
    const judged = assess(supplyFrom(space, buildOf(space, ground, candidate), ''))
    if (judged.ok) return judged.value.holds ? withLoopLimits(judged.value) : judged.value
  }
  return null
}

/** Candidates of a block in even steps. */
function spread(space: Space, ground: Ground): Candidate[] {
  const frames = [...framesOf(space, ground)]
  const step = Math.max(1, Math.floor((frames.length * 4) / looks))
  return frames.flatMap((frame, i) =>
    i % step === 0 ? [...copperOf(frame)].filter((_, k, all) => k % Math.max(1, all.length >> 2) === 0) : [],
  )
}

function leanMargin(space: Space, ground: Ground, c: Candidate): number {
  const bench = benchOf(space)
  const stand = bench.stand(ground, c)
  const gap = gapOf(ground, c.frame.parts, c.frame.turns)
  if (stand === null || typeof stand === 'string' || gap === null) return Number.NEGATIVE_INFINITY
  const t = newTally()
  frameBreaks(space.need, ground, c.frame, stand.rails, t, true)
  gapBreaks(ground, c.frame, gap, stand.rails.idleCrest_V, t, true)
  tryCopper(bench, ground, stand, c, gap, t, { all: true, outdone: () => false })
  return t.margin
}
