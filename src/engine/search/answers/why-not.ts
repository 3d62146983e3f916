import type { Assessment, Limit } from '../../limits/index.ts'
import type { Supply } from '../../supply/supply.ts'
import { type Block, farFromUsual, type Space } from '../space/space.ts'
import { withSpares } from '../spares.ts'
import type { SearchState } from '../step.ts'
import { nearestOf, shortBy } from './nearest.ts'
import { limitText, mendedBy } from './words.ts'

/** Why a core or a chip has no answer: what stops its nearest candidate. */
export interface WhyNot {
  readonly of: 'core' | 'switcher'
  readonly id: string
  readonly name: string
  /** The limit that stops the nearest candidate; null where no candidate can be put together at all. */
  readonly limit: Limit | null
  /** The nearest candidate; null where none can be put together. */
  readonly supply: Supply | null
  readonly sentence: string
}

/** How many chips a core is tried with: those of about the right rating. */
const chipsOfCore = 3
/** How many cores a chip is tried with: those from about the right size up. */
const coresOfChip = 4

/** Limits that are a part's own: another core or chip moves them, and nothing else moves them as much. */
const own = {
  core: /^(core|transformer|primary|secondary)\.(?!gap)/,
  switcher: /^(switcher|supply|loop)\.|^output\.hold-up$/,
} as const
/** An own limit is named before the weakest of all where it is at least this part as short. */
const nearlyWeakest = 0.5
/** Or where it is short by this, which no other part makes good. */
const farOff = -0.5

/**
 * For every core and every chip that no supply was found with: the candidate nearest to holding, by its weakest limit,
 * and the limit of the part that stops it. Proved by whole evaluation.
 */
export function whyNot(space: Space, state: SearchState): WhyNot[] {
  const { cores, switchers } = withSpares(space, state)
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
      supply: null,
      sentence: `${core.name}: no former of the drawer fits it; add one.`,
    }),
  )
  return [
    ...without('core', space.cores.length, cores),
    ...bare,
    ...without('switcher', space.switchers.length, switchers),
  ]
}

/** What stops a core or chip; null where its nearest candidate holds, and other supplies only outdo it. */
function explain(space: Space, of: 'core' | 'switcher', index: number): WhyNot | null {
  const part = of === 'core' ? space.cores[index]!.core : space.switchers[index]!
  const base = { of, id: part.id, name: part.name }
  const partners = partnersOf(space, of, index)
  const tried = partners.map((block) => nearestOf(space, block))
  const nearest = tried
    .flatMap((found) => (found !== null && 'assessment' in found ? [found] : []))
    .sort((a, b) => shortBy(a.assessment) - shortBy(b.assessment))[0]
  if (!nearest) {
    const problems = tried.flatMap((found, i) =>
      found !== null && 'problem' in found ? [{ problem: found.problem, core: partners[i]!.core }] : [],
    )
    // Of a chip, the transformer that does not come about is one on some core.
    const on = of === 'switcher' && problems[0] ? `on ${space.cores[problems[0].core]!.core.name}, ` : ''
    const why = problems[0]?.problem ?? 'no turns and gap give a transformer that fits it at all'
    return { ...base, limit: null, supply: null, sentence: `${part.name}: ${on}${why}.` }
  }
  if (nearest.assessment.holds) return null
  const limit = stops(nearest.assessment, own[of])
  return {
    ...base,
    limit,
    supply: nearest.supply,
    sentence: `${part.name}: ${limitText(limit)}; ${mendedBy(limit, nearest.assessment)}.`,
  }
}

/** The blocks in which a core or chip is looked at. */
function partnersOf(space: Space, of: 'core' | 'switcher', index: number): Block[] {
  const off = (b: Block) => farFromUsual(space.cores[b.core]!, space.switchers[b.switcher]!, space.sizing)
  const usual = space.blocks.filter((b) => b[of] === index).sort((a, b) => off(a) - off(b))
  if (of === 'core') return usual.slice(0, chipsOfCore)
  const box_m3 = ({ core }: Block) => {
    const { A_m, B_m, C_m } = space.cores[core]!.core.dimensions
    return A_m * B_m * C_m
  }
  const least_m3 = usual[0] ? box_m3(usual[0]) : 0
  const larger = usual.filter((b) => box_m3(b) >= least_m3).sort((a, b) => box_m3(a) - box_m3(b))
  const step = (larger.length - 1) / (coresOfChip - 1)
  const spread = Array.from({ length: coresOfChip }, (_, i) => larger[Math.round(i * step)])
  return [...new Set(spread.filter((b) => b !== undefined))]
}

/** What follows from the rest: heat, hold-up and running at all from power; leakage and what it burns from the window. */
const effect = ({ id, unit }: Limit): boolean =>
  unit === '°C' ||
  /^(supply\.runs|output\.hold-up|transformer\.leakage|bulk\.ripple-current|clamp\..+)$/.test(id)

/**
 * The limit that stops a part: the weakest of its own where that is nearly as short as the weakest of all, else that
 * one. Causes come before effects, and what has figures before a class or count, which is met or not.
 */
function stops({ limits, givesFirst }: Assessment, mine: RegExp): Limit {
  const broken = limits.filter((limit) => !limit.holds)
  const causes = broken.filter((limit) => !effect(limit))
  const figured = causes.filter((limit) => !limit.discrete)
  const weakest = figured[0] ?? causes[0] ?? broken[0] ?? givesFirst
  const cause = [...figured, ...causes].find(({ id }) => mine.test(id))
  // What does not run has no readings of much of the rest: the others are not weighed against the part's own.
  const stopped = broken.find(({ id }) => id === 'supply.runs')
  if (cause && (stopped || cause.margin <= nearlyWeakest * weakest.margin)) return cause
  if (cause && !cause.discrete && cause.margin <= farOff) return cause
  if (cause) return weakest
  return stopped ?? broken.find(({ id }) => mine.test(id)) ?? weakest
}
