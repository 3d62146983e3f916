import { type Assessment, assess, type Limit } from '../limits/index.ts'
import type { Core, Drawer, Former, Part, Switcher } from '../parts/part.ts'
import { emptyBench } from '../supply/bench-log.ts'
import type { Build, Places } from '../supply/build.ts'
import type { Need } from '../supply/need.ts'
import { type Problem, type Result, succeed } from '../supply/result.ts'
import type { Supply } from '../supply/supply.ts'
import { finish, type Judged, shortOf } from './finish.ts'
import { firstBuild } from './first-build.ts'
import { firstPlaces, type Surroundings, surroundings } from './first-places.ts'
import { beyondMending, repair } from './mend.ts'
import { missingKinds } from './missing.ts'
import { held } from './pick.ts'

export interface ProposeOptions {
  readonly id?: string
  readonly name?: string
  readonly revision?: string
}

const mostSwitchers = 5
const mostRepairs = 24
/** A window this full is not mended by fewer wires in hand. */
const hopelessFill = 1.5

/** Output sides tried, each with fewer capacitors than the one before. */
const mostOutputs = 3
/** Proposals finished for their loop before the nearest is taken. */
const mostFinished = 14
/** Room that a proposal keeps below each rating; common practice is more, but the builder sees and decides. */
const wantedRoom = 0.02

/**
 * Proposes a supply for a need from the parts of a drawer: cores from the smallest, switchers from the weakest that
 * is rated for the power, everything else sized by rule, then judged with the real evaluation and mended where a
 * larger part of the drawer mends it, and last finished for its loop. On the smallest core on which every limit holds
 * with a little room, the one of the fewest parts is taken; where none holds so, the nearest to it, so that the
 * builder sees what gives first.
 * Errors: a kind of part that a supply cannot do without is missing from the drawer, each named.
 */
export function proposeSupply(need: Need, drawer: Drawer, options: ProposeOptions = {}): Result<Supply> {
  const missing = missingKinds(drawer, need)
  if (missing.length > 0) return { ok: false, problems: missing }
  const outputs = outputSides(need, drawer)
  const switchers = switchersFor(need, drawer)
  let unfinished: Judged | null = null
  let nearest: Judged | null = null
  const unstable = new Set<string>()
  let finished = 0
  let problems: readonly Problem[] = []
  for (const { core, former } of coresFor(need, drawer)) {
    const holding: Judged[] = []
    // A chip whose loop no network holds on one core is not tried on the next: the core changes little of it.
    for (const switcher of switchers.filter((s) => !unstable.has(s.id))) {
      let loops = 0
      for (const around of outputs) {
        if (finished >= mostFinished) break
        const first = firstPlaces(need, drawer, around, switcher, core, former)
        const tried = mended(
          assemble(need, drawer, firstBuild(need, drawer, first), options),
          drawer,
          (build) => assemble(need, drawer, build, options),
        )
        if (!tried.ok) {
          problems = tried.problems
          break
        }
        if (unfinished === null || shortOf(tried.value.assessment) < shortOf(unfinished.assessment))
          unfinished = tried.value
        // Another output side does not mend what the core or the switcher cannot do.
        if (!promising(tried.value)) break
        const one = finish(tried.value.supply, tried.value.assessment)
        finished++
        if (nearest === null || distanceOf(one) < distanceOf(nearest)) nearest = one
        if (distanceOf(one) === 0) holding.push(one)
        loops += one.assessment.holds ? 1 : -1
      }
      if (loops < 0) unstable.add(switcher.id)
    }
    if (holding.length > 0) return succeed(fewestParts(holding).supply)
  }
  const best = nearest ?? (unfinished && finish(unfinished.supply, unfinished.assessment))
  return best ? succeed(best.supply) : { ok: false, problems }
}

/** A supply after the mends that help it: the best found on the way. */
function mended(first: Supply, drawer: Drawer, assembled: (build: Build) => Supply): Result<Judged> {
  let supply = first
  let best: Judged | null = null
  let problems: readonly Problem[] = []
  for (let step = 0; step < mostRepairs; step++) {
    const judged = assess(supply)
    if (!judged.ok) {
      problems = judged.problems
      break
    }
    const now = { supply, assessment: judged.value }
    if (best === null || distanceOf(now) < distanceOf(best)) best = now
    if (distanceOf(now) === 0 || judged.value.evaluation.fixed.windowFill > hopelessFill) break
    const build = repair(supply, wanting(judged.value), drawer)
    if (build === null) break
    supply = assembled(build)
  }
  return best ? succeed(best) : { ok: false, problems }
}

/** True of a rating that is met with less room than wanted. */
const isTight = (limit: Limit): boolean =>
  limit.holds && limit.basis === 'rating' && !limit.discrete && limit.margin < wantedRoom

/** How far a supply is from holding with room: 0 there, below 1 where it holds without, more where it does not. */
const distanceOf = ({ assessment }: Judged): number =>
  assessment.holds ? 0.5 * Math.min(1, assessment.limits.filter(isTight).length / 8) : shortOf(assessment)

/** The assessment as the mending sees it: a rating met without room is not met. */
const wanting = (assessment: Assessment): Assessment => ({
  ...assessment,
  limits: assessment.limits.map((limit) => (isTight(limit) ? { ...limit, holds: false } : limit)),
})

/** True where all limits hold but those which only another drawer mends. */
const promising = ({ assessment }: Judged): boolean =>
  assessment.limits.every((limit) => limit.holds || beyondMending(limit.id))

/** Mains and output sides: the first mains side with each output side. */
const outputSides = (need: Need, drawer: Drawer): Surroundings[] => {
  const all = surroundings(need, drawer, mostOutputs)
  return all.slice(0, all.findIndex((a) => a.places.bulkCapacitor !== all[0]!.places.bulkCapacitor) >>> 0)
}

/** The supply of the fewest parts; of equals, the first. */
const fewestParts = (all: readonly Judged[]): Judged =>
  all.reduce((best, one) => (partCount(one) < partCount(best) ? one : best))

const partCount = ({ supply: { build } }: Judged): number =>
  Object.values(build.places).filter((id) => id !== null).length +
  build.bulkCount +
  build.outputCount +
  build.secondCount

/** Least core volume worth trying: about 50 mm³ for each watt; common practice, no source. */
const leastVolume_m3_per_W = 50e-9

/** Cores with a former for them, smallest first, from the first that could do. */
function coresFor(need: Need, drawer: Drawer): { core: Core; former: Former }[] {
  const formers = held(drawer, 'former')
  const all = held(drawer, 'core')
    .flatMap((core) => {
      const former = formers.find((f) => f.fits.includes(core.size))
      return former ? [{ core, former }] : []
    })
    .sort((a, b) => volume(a.core) - volume(b.core))
  const able = all.filter(({ core }) => volume(core) >= leastVolume_m3_per_W * need.output_V * need.output_A)
  return able.length > 0 ? able : all.slice(-1)
}

const volume = ({ published, dimensions: d }: Core): number =>
  published?.effectiveVolume_m3 ?? d.A_m * d.B_m * d.C_m

/** Switchers rated for the power, weakest first; the strongest where none is. */
function switchersFor(need: Need, drawer: Drawer): Switcher[] {
  const wide = need.source.kind === 'dc' ? need.source.minimum_V < 200 : need.source.minimum_Vrms < 180
  const rated = (s: Switcher): number => (wide ? s.ratedPowerWide_W : s.ratedPower230_W)
  const power_W = need.output_V * need.output_A
  const sorted = held(drawer, 'switcher').sort((a, b) => rated(a) - rated(b))
  const able = sorted.filter((s) => rated(s) >= power_W)
  return (able.length > 0 ? able : sorted.slice(-1)).slice(0, mostSwitchers)
}

/** A whole supply from a build: copies of the parts that its places name. */
function assemble(need: Need, drawer: Drawer, build: Build, options: ProposeOptions): Supply {
  const used = new Set(Object.values(build.places as Places).filter((id): id is string => id !== null))
  const parts: Part[] = drawer.entries.flatMap(({ part }) => (used.has(part.id) ? [part] : []))
  return {
    format: 'gapwright-supply',
    version: 1,
    id: options.id ?? 'new-supply',
    name: options.name ?? 'New supply',
    revision: options.revision ?? 'A',
    note: '',
    need,
    parts,
    build,
    bench: emptyBench(),
  }
}
