import { type Assessment, assess } from '../limits/index.ts'
import type { Core, Drawer, Former, Part, Switcher } from '../parts/part.ts'
import { emptyBench } from '../supply/bench-log.ts'
import type { Build, Places } from '../supply/build.ts'
import { suggestFor } from '../supply/loop/index.ts'
import type { Need } from '../supply/need.ts'
import { type Problem, type Result, succeed } from '../supply/result.ts'
import type { Supply } from '../supply/supply.ts'
import { firstBuild } from './first-build.ts'
import { firstPlaces, surroundings } from './first-places.ts'
import { beyondMending, repair } from './mend.ts'
import { missingKinds } from './missing.ts'
import { held } from './pick.ts'

export interface ProposeOptions {
  readonly id?: string
  readonly name?: string
  readonly revision?: string
}

const mostSwitchers = 5
const mostRepairs = 16
/** A window this full is not mended by fewer wires in hand. */
const hopelessFill = 1.5

/**
 * Proposes a supply for a need from the parts of a drawer: cores from the smallest, switchers from the weakest that
 * is rated for the power, everything else sized by rule, then judged with the real evaluation and mended where a
 * larger part of the drawer mends it. The first that holds every limit is taken, but for limits which only another
 * drawer mends; where none does, the one with the fewest limits broken, so that the builder sees what gives first.
 * Errors: a kind of part that a supply cannot do without is missing from the drawer, each named.
 */
export function proposeSupply(need: Need, drawer: Drawer, options: ProposeOptions = {}): Result<Supply> {
  const missing = missingKinds(drawer)
  if (missing.length > 0) return { ok: false, problems: missing }
  let best: { supply: Supply; assessment: Assessment } | null = null
  let lastProblems: readonly Problem[] = []
  const around = surroundings(need, drawer, 1)[0]!
  for (const { core, former } of coresFor(need, drawer))
    for (const switcher of switchersFor(need, drawer)) {
      const first = firstPlaces(need, drawer, around, switcher, core, former)
      let supply = assemble(need, drawer, firstBuild(need, drawer, first), options)
      for (let step = 0; step < mostRepairs; step++) {
        const judged = assess(supply)
        if (!judged.ok) {
          lastProblems = judged.problems
          break
        }
        const assessment = judged.value
        if (best === null || shortOf(assessment) < shortOf(best.assessment)) best = { supply, assessment }
        if (assessment.limits.every((limit) => limit.holds || beyondMending(limit.id)))
          return succeed(withLoop(supply, assessment))
        if (assessment.evaluation.fixed.windowFill > hopelessFill) break
        const mended = repair(supply, assessment, drawer)
        if (mended === null) break
        supply = assemble(need, drawer, mended, options)
      }
    }
  return best ? succeed(withLoop(best.supply, best.assessment)) : { ok: false, problems: lastProblems }
}

/** Least core volume worth trying: about 50 mm³ for each watt; common practice, no source. */
const leastVolume_m3_per_W = 50e-9

/** Crossover that a proposal aims at, Hz: what hand-built supplies settle for; common practice, no source. */
const proposed_Hz = 1000

/** The supply with LED resistor and compensation suited to its loop, unless they break a limit or none is found. */
function withLoop(supply: Supply, assessment: Assessment): Supply {
  const { design, conditions } = assessment.evaluation
  const answer = suggestFor(design, conditions, {}, { crossover_Hz: proposed_Hz })
  if (!answer.ok) return supply
  const { ledResistor_ohm, compensationResistor_ohm, compensationCapacitor_F, highFrequencyCapacitor_F } =
    answer.network
  const feedback = {
    ...supply.build.feedback,
    ledResistor_ohm,
    compensationResistor_ohm,
    compensationCapacitor_F,
    highFrequencyCapacitor_F,
  }
  const suited = { ...supply, build: { ...supply.build, feedback } }
  const judged = assess(suited)
  return judged.ok && shortOf(judged.value) <= Math.max(0, shortOf(assessment)) ? suited : supply
}

/** How far a supply is from holding: how many limits do not hold, and how far the weakest is short. */
const shortOf = ({ limits, givesFirst }: Assessment): number =>
  limits.filter((limit) => !limit.holds).length - 0.09 * Math.min(0, givesFirst.margin)

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
