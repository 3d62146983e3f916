import { type Assessment, assess, type Limit, withLoopLimits } from '../../limits/index.ts'
import type { Drawer } from '../../parts/part.ts'
import type { Supply } from '../../supply/supply.ts'
import { applied, type Change, changeList, type Try } from './change-list.ts'
import { excessText, limitText, listText } from './words.ts'

export interface Changed {
  readonly changes: readonly Change[]
  readonly supply: Supply
  readonly assessment: Assessment
}

/** Changes that come close. */
export interface Miss extends Changed {
  /** What does not hold with them, the weakest first. */
  readonly broken: readonly Limit[]
  /** The weakest of them with its figures and by how much it is missed, and the names of the others. */
  readonly sentence: string
}

/** What would make a supply hold. */
export interface Mending {
  /** Changes with which every limit holds, the fewest and the least work first; empty where none were found. */
  readonly answers: readonly Changed[]
  /** Where there are none: what comes closest; null where nothing comes closer than the supply as it is. */
  readonly nearest: Miss | null
}

/** Changes given back, and of those how many at the same places. */
const mostGiven = 5
const mostAlike = 2
/** Supplies whose loop is looked at of those that hold without: it takes longer than all the rest. */
const mostLoops = 6
/** Parts of a place that are looked at before the rest is left out, none of them having done anything. */
const probes = 8
/** A shortfall that falls by this much is helped. */
const helped = 0.002
/** Pairs and threes judged, and how many of them at the same places. */
const judgedPairs = 90
const judgedThrees = 70
const judgedAlike = 6
/** Pairs that a third change is added to. */
const extended = 14
/** Foretold shortfall at which a combination may well hold. */
const promising = 0.03

/** One or more changes, and the supply with them. */
interface Tried {
  readonly tries: readonly Try[]
  readonly supply: Supply
  readonly assessment: Assessment
  /** Margin of every limit of the supply as it is; those that went count as met. */
  readonly margins: Float64Array
  readonly short: number
  readonly work: number
}

/**
 * The cheapest changes that make a supply hold all its limits. One change first, from the least work up: every part of
 * the drawer in every place that it might do in, a core with a former, every count, a few choices of the build; of a
 * place where a few parts do nothing for what is broken, no more are tried. Where no one change does, pairs; where no
 * pair does, a third change on the pairs that come closest. Pairs and threes are foretold from what each change does
 * by itself to every limit, and the most promising are judged as a whole: a bounded search, best first, which may miss
 * changes that help only together. A supply that holds gives none.
 */
export function cheapestChanges(supply: Supply, drawer: Drawer): Mending {
  const now = judged(supply)
  if (now === null || now.holds) return { answers: [], nearest: null }
  const order = new Map(now.limits.map((limit, i) => [limit.id, i]))
  const base = triedOf([], supply, now, order)
  const tries = changeList(supply, drawer, now)
  const seen: Tried[] = []
  const judge = (from: Tried, one: Try): Tried | null => {
    const changed = applied(from.supply, one)
    const assessment = quickly(changed)
    if (assessment === null) return null
    const tried = triedOf([...from.tries, one], changed, assessment, order)
    seen.push(tried)
    return tried
  }
  /** The supply with the limits of its loop, in place of the supply without. */
  const withLoop = (tried: Tried): Tried => {
    const whole = triedOf(tried.tries, tried.supply, withLoopLimits(tried.assessment), order)
    seen.splice(seen.indexOf(tried), 1, whole)
    return whole
  }
  /** Those of them that hold with their loop too. */
  const holding = (all: readonly Tried[]): Changed[] => {
    const looked: Tried[] = []
    for (const tried of all) {
      if (looked.length >= mostLoops || !tried.assessment.holds) continue
      const alike = looked.filter((other) => placesOf(other) === placesOf(tried))
      if (alike.length < mostAlike) looked.push(withLoop(tried))
    }
    return looked
      .filter(({ assessment }) => assessment.holds)
      .slice(0, mostGiven)
      .map(changedOf)
  }
  const singles: Tried[] = []
  // The least work first: what takes more is not looked at once something holds.
  for (const effort of [...new Set(tries.map(({ change }) => change.work))].sort((a, b) => a - b)) {
    const level = tries.filter(({ change }) => change.work === effort)
    const places = [...new Set(level.map(({ change }) => change.at))]
    const here = places.flatMap((at) =>
      triedAt(
        base,
        level.filter(({ change }) => change.at === at),
        judge,
      ),
    )
    const answers = holding(here.sort((a, b) => givesOf(b) - givesOf(a)))
    if (answers.length > 0) return { answers, nearest: null }
    singles.push(...here)
  }
  const helpful = singles.filter((one) => helps(base, one))
  const pairs = combined(base, helpful, helpful, judgedPairs, judge)
  const answers = holding(pairs.sort(byWork))
  if (answers.length > 0) return { answers, nearest: null }
  const closest = pairs.sort((a, b) => a.short - b.short).slice(0, extended)
  const threes = holding(combined(base, closest, helpful, judgedThrees, judge).sort(byWork))
  if (threes.length > 0) return { answers: threes, nearest: null }
  let nearest = nearestOf(base, seen)
  // What holds but for a loop that was not looked at yet is no miss.
  while (nearest?.assessment.holds) {
    const whole = withLoop(nearest)
    if (whole.assessment.holds) return { answers: [changedOf(whole)], nearest: null }
    nearest = nearestOf(base, seen)
  }
  return { answers: [], nearest: nearest && missOf(nearest) }
}

/** The changes at one place, each by itself; only a few of them where those do nothing for what is broken. */
function triedAt(
  base: Tried,
  alike: readonly Try[],
  judge: (from: Tried, one: Try) => Tried | null,
): Tried[] {
  const step = Math.max(1, Math.ceil(alike.length / probes))
  const first: Tried[] = []
  const rest: Try[] = []
  for (const [i, one] of alike.entries()) {
    if (i % step !== 0) rest.push(one)
    else first.push(...maybe(judge(base, one)))
  }
  if (!first.some((one) => helps(base, one))) return first
  return [...first, ...rest.flatMap((one) => maybe(judge(base, one)))]
}

const maybe = <T>(value: T | null): T[] => (value === null ? [] : [value])

/** Whether a change brings a broken limit nearer to holding, whatever else it does. */
const helps = (base: Tried, one: Tried): boolean =>
  base.margins.some((before, i) => shortfall(before) - shortfall(one.margins[i]!) > helped)

/** A further change on each of some: the most promising, by what each does by itself, judged. */
function combined(
  base: Tried,
  from: readonly Tried[],
  singles: readonly Tried[],
  most: number,
  judge: (from: Tried, one: Try) => Tried | null,
): Tried[] {
  const seen = new Set<string>()
  const ahead = from
    .flatMap((first) =>
      singles.flatMap((second) => {
        const at = second.tries[0]!.change.at
        if (first.tries.some(({ change }) => change.at === at)) return []
        const short = foretold(base, first, second)
        const work = first.work + second.work
        return short < base.short - helped ? [{ first, second, short, work }] : []
      }),
    )
    .sort((a, b) => {
      const [hopeA, hopeB] = [a.short < promising, b.short < promising]
      if (hopeA !== hopeB) return hopeA ? -1 : 1
      return hopeA ? a.work - b.work || a.short - b.short : a.short - b.short || a.work - b.work
    })
  const alike = new Map<string, number>()
  const found: Tried[] = []
  for (const { first, second } of ahead) {
    if (seen.size >= most) break
    const all = [...first.tries, ...second.tries]
    const key = keyOf(all.map(({ change }) => change.words))
    const places = keyOf(all.map(({ change }) => change.at))
    const count = alike.get(places) ?? 0
    if (seen.has(key) || count >= judgedAlike) continue
    seen.add(key)
    alike.set(places, count + 1)
    found.push(...maybe(judge(first, second.tries[0]!)))
  }
  return found
}

/** Shortfall of two changes together, if each moved every margin as it does by itself. */
function foretold(base: Tried, first: Tried, second: Tried): number {
  let short = 0
  for (let i = 0; i < base.margins.length; i++)
    short += shortfall(first.margins[i]! + second.margins[i]! - base.margins[i]!)
  return short
}

/** How far a limit is from holding: 0 where it does, towards 1 the farther off. */
const shortfall = (margin: number): number => (margin < 0 ? -margin / (1 - margin) : 0)

function triedOf(
  tries: readonly Try[],
  supply: Supply,
  assessment: Assessment,
  order: ReadonlyMap<string, number>,
): Tried {
  const margins = new Float64Array(order.size).fill(1)
  let short = 0
  for (const { id, margin } of assessment.limits) {
    const i = order.get(id)
    if (i !== undefined) margins[i] = margin
    short += shortfall(margin)
  }
  // What does not run has no readings of the rest.
  if (assessment.limits.some((limit) => limit.id === 'supply.runs')) short += 10
  const work = tries.reduce((sum, { change }) => sum + change.work, 0)
  return { tries, supply, assessment, margins, short, work }
}

/** What comes closest: the least shortfall of all limits together; of alike ones the fewest changes and the least work. */
function nearestOf(base: Tried, seen: readonly Tried[]): Tried | null {
  const alike = (t: Tried) => Math.round(t.short / helped)
  const nearer = (a: Tried, b: Tried) =>
    alike(a) - alike(b) || a.tries.length - b.tries.length || a.work - b.work
  const best = seen.reduce((a, b) => (nearer(b, a) < 0 ? b : a), base)
  return best === base ? null : best
}

const missOf = (tried: Tried): Miss => {
  const broken = tried.assessment.limits.filter((limit) => !limit.holds)
  return { ...changedOf(tried), broken, sentence: missText(broken) }
}

/** `It would still break one limit: flux at the greatest current limit 0.41 T, at most 0.33 T, 24 % over.` */
function missText([worst, ...others]: readonly Limit[]): string {
  if (worst === undefined) return ''
  const said = [limitText(worst), excessText(worst)].filter((text) => text !== '').join(', ')
  if (others.length === 0) return `It would still break one limit: ${said}.`
  const rest = listText(others.map(({ title }) => lower(title)))
  return `It would still break ${others.length + 1} limits, the worst of them ${said}; the others: ${rest}.`
}

const lower = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`

const changedOf = ({ tries, supply, assessment }: Tried): Changed => ({
  changes: tries.map(({ change }) => change),
  supply,
  assessment,
})

const givesOf = ({ assessment }: Tried): number => assessment.givesFirst.margin
const byWork = (a: Tried, b: Tried): number => a.work - b.work || givesOf(b) - givesOf(a)
const keyOf = (words: readonly string[]): string => [...words].sort().join('|')
const placesOf = ({ tries }: Tried): string => keyOf(tries.map(({ change }) => change.at))

function quickly(supply: Supply): Assessment | null {
  try {
    const judged = assess(supply)
    return judged.ok ? judged.value : null
  } catch {
    // A part far outside of a relation's range: it will not do.
    return null
  }
}

function judged(supply: Supply): Assessment | null {
  const fast = quickly(supply)
  return fast?.holds ? withLoopLimits(fast) : fast
}
