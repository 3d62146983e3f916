import { type Assessment, assess, withLoopLimits } from '../../limits/index.ts'
import type { Drawer, Part } from '../../parts/part.ts'
import type { Build, Place, Places } from '../../supply/build.ts'
import { reference } from '../../supply/refs.ts'
import { placeKind, type Supply } from '../../supply/supply.ts'
import { shortOf } from '../finish.ts'

/** One thing that is done differently. */
export interface Change {
  /** The place whose part changes, or the choice of the build. */
  readonly at: Place | 'outputCount' | 'bulkCount' | 'gap' | 'secondaryTurns' | 'splitPrimary' | 'clamp'
  readonly words: string
  /** Work that it takes: a shim, a part, a rewind, another core; the cheapest first. */
  readonly work: number
}

export interface Changed {
  readonly changes: readonly Change[]
  readonly supply: Supply
  readonly assessment: Assessment
}

/** Work by kind of change, from what hands do on a finished board: common practice, no source. */
const work = { count: 2, part: 2, heatsink: 1, gap: 1, rewind: 5, wire: 5, core: 8 } as const

const workAt = (place: Place): number => {
  if (place === 'switcherHeatsink' || place === 'rectifierHeatsink') return work.heatsink
  if (place === 'core' || place === 'material' || place === 'former') return work.core
  if (/Wire$|^tape$/.test(place) && place !== 'chokeWire') return work.wire
  return work.part
}

/** How many single changes are tried in pairs. */
const pairedFrom = 28
/** Changes given back. */
const mostGiven = 5

/**
 * The cheapest changes that make a supply hold all its limits: every part of the drawer in every place, every count and
 * a few choices of the build one at a time, from the least work up, then the most helpful of them in pairs. By work, then
 * by margin. Empty where no two changes do. A supply that holds already gives none.
 */
export function cheapestChanges(supply: Supply, drawer: Drawer): Changed[] {
  const now = judge(supply)
  if (now === null || now.holds) return []
  const tries = changesOf(supply, drawer, now)
  const whole = (changes: readonly Change[], changed: Supply): Changed[] => {
    const assessment = judge(changed)
    return assessment?.holds ? [{ changes, supply: changed, assessment }] : []
  }
  const singles: Tried[] = []
  // The least work first: what takes more is not looked at once something holds.
  for (const effort of [...new Set(tries.map(({ change }) => change.work))].sort((a, b) => a - b)) {
    const level = tries
      .filter(({ change }) => change.work === effort)
      .flatMap((one): Tried[] => {
        const changed = applied(supply, one)
        const assessment = quickly(changed)
        return assessment ? [{ ...one, changed, assessment }] : []
      })
    const done = level
      .filter(({ assessment }) => assessment.holds)
      .sort((a, b) => b.assessment.givesFirst.margin - a.assessment.givesFirst.margin)
      .slice(0, 3 * mostGiven)
      .flatMap(({ change, changed }) => whole([change], changed))
    if (done.length > 0) return ranked(done)
    singles.push(...level)
  }
  const before = shortOf(now)
  const helpful = singles
    .filter(({ assessment }) => shortOf(assessment) < before - 1e-6)
    .sort((a, b) => shortOf(a.assessment) - shortOf(b.assessment) || a.change.work - b.change.work)
    .slice(0, pairedFrom)
  const pairs: Changed[] = []
  for (const [i, first] of helpful.entries())
    for (const second of helpful.slice(i + 1)) {
      if (pairs.length >= 3 * mostGiven) break
      if (first.change.at === second.change.at) continue
      const changed = applied(first.changed, second)
      if (quickly(changed)?.holds) pairs.push(...whole([first.change, second.change], changed))
    }
  return ranked(pairs)
}

const ranked = (all: readonly Changed[]): Changed[] => {
  const seen = new Set<string>()
  return [...all]
    .sort((a, b) => sum(a) - sum(b) || b.assessment.givesFirst.margin - a.assessment.givesFirst.margin)
    .filter(({ changes }) => {
      const key = changes
        .map((c) => c.words)
        .sort()
        .join('|')
      const fresh = !seen.has(key)
      seen.add(key)
      return fresh
    })
    .slice(0, mostGiven)
}

const sum = ({ changes }: Changed): number => changes.reduce((total, c) => total + c.work, 0)

function quickly(supply: Supply): Assessment | null {
  try {
    const judged = assess(supply)
    return judged.ok ? judged.value : null
  } catch {
    // A part far outside of a relation's range: it will not do.
    return null
  }
}

function judge(supply: Supply): Assessment | null {
  const fast = quickly(supply)
  return fast?.holds ? withLoopLimits(fast) : fast
}

interface Try {
  readonly change: Change
  readonly to: (build: Build) => Build
  readonly part: Part | null
}

interface Tried extends Try {
  readonly changed: Supply
  readonly assessment: Assessment
}

/** Everything that can be done once to a build. */
function changesOf({ build }: Supply, drawer: Drawer, { evaluation }: Assessment): Try[] {
  const tries: Try[] = []
  for (const place of Object.keys(placeKind) as Place[])
    for (const { part, quantity } of drawer.entries) {
      if (part.kind !== placeKind[place] || quantity === 0 || part.id === build.places[place]) continue
      tries.push({
        change: { at: place, words: `${reference[place]}: ${part.name}`, work: workAt(place) },
        to: (from) => ({ ...from, places: { ...from.places, [place]: part.id } as Places }),
        part,
      })
    }
  const count = (at: 'outputCount' | 'bulkCount', n: number, what: string) => {
    if (n >= 1 && n <= 10)
      tries.push({
        change: { at, words: `${n} ${what}`, work: work.count },
        to: (from) => ({ ...from, [at]: n }),
        part: null,
      })
  }
  count('outputCount', build.outputCount + 1, 'output capacitors')
  count('outputCount', build.outputCount + 2, 'output capacitors')
  count('bulkCount', build.bulkCount + 1, 'bulk capacitors')
  const t = evaluation.design.transformer
  const transformer = (
    at: Change['at'],
    words: string,
    effort: number,
    change: Partial<Build['transformer']>,
  ) =>
    tries.push({
      change: { at, words, work: effort },
      to: (from) => ({ ...from, transformer: { ...from.transformer, ...change } }),
      part: null,
    })
  if (build.transformer.gap_m !== null)
    transformer('gap', 'the gap that the tool would choose', work.gap, { gap_m: null })
  for (const factor of [0.7, 0.8, 0.9, 1.1, 1.25, 1.5])
    transformer('gap', `gap of ${Number((t.gap_m * factor * 1e3).toPrecision(2))} mm`, work.gap, {
      gap_m: Number((t.gap_m * factor).toPrecision(2)),
    })
  for (const more of [-2, -1, 1, 2]) {
    const turns = t.secondaryTurns + more
    if (turns < 1) continue
    transformer('secondaryTurns', `${turns} secondary turns`, work.rewind, {
      primaryTurns: t.primaryTurns,
      secondaryTurns: turns,
      biasTurns: null,
    })
  }
  transformer(
    'splitPrimary',
    build.transformer.splitPrimary ? 'primary in one piece' : 'split primary',
    work.rewind,
    {
      splitPrimary: !build.transformer.splitPrimary,
      stack: null,
    },
  )
  if (build.clamp.style === 'resistor-capacitor')
    for (const factor of [0.82, 1.22]) {
      const resistor_ohm = Number((evaluation.design.clamp.resistor_ohm * factor).toPrecision(2))
      tries.push({
        change: { at: 'clamp', words: `clamp resistor of ${resistor_ohm / 1000} kohm`, work: work.heatsink },
        to: (from) => ({ ...from, clamp: { ...from.clamp, resistor_ohm } }),
        part: null,
      })
    }
  return tries
}

/** The supply after a change, with the part that came in. */
function applied(supply: Supply, { to, part }: Try): Supply {
  const build = to(supply.build)
  const parts = part && !supply.parts.some((p) => p.id === part.id) ? [...supply.parts, part] : supply.parts
  const used = new Set(Object.values(build.places))
  return { ...supply, build, parts: parts.filter((p) => used.has(p.id)) }
}
