import { type Assessment, assess, withLoopLimits } from '../../limits/index.ts'
import { limitUse } from '../../limits/rules/switcher.ts'
import { handFill } from '../../limits/rules/transformer.ts'
import type { Supply } from '../../supply/supply.ts'
import { gapOf } from '../lean/bench.ts'
import { tryCopper } from '../lean/decide.ts'
import { frameBreaks, gapBreaks } from '../lean/frame-limits.ts'
import { quickCoil } from '../lean/quick-coil.ts'
import { atMost, newTally } from '../lean/tally.ts'
import { buildOf, type Candidate, copperOf, supplyFrom, tapesOf } from '../space/candidate.ts'
import { type Frame, framesOf, type Ground, groundOf } from '../space/frames.ts'
import type { Block, Space } from '../space/space.ts'
import { benchOf } from '../step.ts'

/** The candidate of a core and a chip that comes nearest to holding, judged as a whole. */
export interface Nearest {
  readonly supply: Supply
  readonly assessment: Assessment
}

/** Nothing of a core and a chip can be put together at all; a sentence says what stops it. */
export interface Impossible {
  readonly problem: string
}

/** Frames read in closed form with their best copper, those of them read with every copper, and supplies assessed. */
const framesRead = 28
const framesWound = 2
const assessed = 4
/** Of those assessed, how many with one ripple ratio: it decides about the loop. */
const alikeAssessed = 2
/** What does not run is farther off than anything that does. */
const stopped = -1000

interface Hopeful {
  readonly candidate: Candidate
  readonly margin: number
}

/**
 * The candidate of a core and a chip whose weakest limit is the least short. All frames are ordered by what window,
 * flux, gap, voltages and peak current leave at the best; the first of them are read in closed form, then the nearest
 * of those with every copper, and the nearest few of all are assessed as a whole. A sentence where nothing can be put
 * together.
 */
export function nearestOf(space: Space, block: Block): Nearest | Impossible | null {
  const ground = groundOf(space, block)
  if (ground === null) return null
  const nearer = (a: Hopeful, b: Hopeful) => b.margin - a.margin
  const readAll = (candidates: readonly Candidate[]): Hopeful[] =>
    candidates.map((candidate) => ({ candidate, margin: leanMargin(space, ground, candidate) })).sort(nearer)
  const frames = [...framesOf(space, ground)]
  const hopefuls = frames.flatMap((frame) => bestCopper(space, ground, frame) ?? []).sort(nearer)
  const first = readAll(hopefuls.slice(0, framesRead).map(({ candidate }) => candidate))
  const wound = readAll(
    first.slice(0, framesWound).flatMap(({ candidate }) => [...copperOf(candidate.frame)]),
  )
  const judged = varied([...first, ...wound].sort(nearer)).flatMap((candidate): Nearest[] => {
    const supply = supplyFrom(space, buildOf(space, ground, candidate), '')
    const found = assess(supply)
    return found.ok ? [{ supply, assessment: found.value }] : []
  })
  if (judged.length === 0) return last(space, ground, frames)
  // The loop takes longer than all the rest: it is read where it decides.
  const whole = judged.some(({ assessment }) => assessment.holds)
    ? judged.map((j) => (j.assessment.holds ? { ...j, assessment: withLoopLimits(j.assessment) } : j))
    : judged
  return whole.reduce((a, b) => (shortBy(b.assessment) < shortBy(a.assessment) ? b : a))
}

/** The first few, not all of them with one ripple ratio. */
function varied(hopefuls: readonly Hopeful[]): Candidate[] {
  const taken = new Set<Candidate>()
  const alike = new Map<number, number>()
  for (const { candidate } of hopefuls) {
    const { ripple } = candidate.frame
    const count = alike.get(ripple) ?? 0
    if (taken.size >= assessed) break
    if (count >= alikeAssessed) continue
    alike.set(ripple, count + 1)
    taken.add(candidate)
  }
  return [...taken]
}

/** By how much the weakest limit is short; what does not run has no readings, and is farther off than anything. */
export const shortBy = ({ limits, givesFirst }: Assessment): number =>
  limits.some(({ id }) => id === 'supply.runs') ? -stopped : -givesFirst.margin

/** The copper of a frame that fills the window least, with the most that the weakest limit of the frame can leave. */
function bestCopper(space: Space, ground: Ground, frame: Frame): Hopeful | null {
  const { former } = space.cores[ground.block.core]!
  const { biasWire: bias, tape, switcher } = frame.parts
  const gap = gapOf(ground, frame.parts, frame.turns)
  if (gap === null) return null
  const t = newTally()
  const stand = benchOf(space).stand(ground, frame)
  if (stand !== null && typeof stand === 'object') {
    const { rails } = stand
    frameBreaks(space.need, ground, frame, rails, t, true)
    gapBreaks(ground, frame, gap, rails.idleCrest_V, t, true)
  }
  atMost(t, 'switcher.peak-current', frame.turns.peak_A, limitUse * switcher.currentLimit_A.minimum)
  let best: Candidate | null = null
  let least = Number.POSITIVE_INFINITY
  for (const candidate of copperOf(frame)) {
    const { stack, primaryWire: primary, secondaryWire: secondary } = candidate
    const wires = { primary, secondary, bias }
    const tapes = tapesOf(space.need, stack)
    const quick = quickCoil(
      space.need,
      former,
      ground.facts,
      tape.thickness_m,
      frame.turns,
      stack,
      wires,
      tapes,
    )
    if (quick === null || quick.fill >= least) continue
    least = quick.fill
    best = candidate
  }
  if (best === null) return null
  atMost(t, 'transformer.hand-fit', least, handFill)
  return { candidate: best, margin: t.margin }
}

function leanMargin(space: Space, ground: Ground, c: Candidate): number {
  const bench = benchOf(space)
  const stand = bench.stand(ground, c.frame)
  const gap = gapOf(ground, c.frame.parts, c.frame.turns)
  if (stand === null || typeof stand === 'string' || gap === null) return 2 * stopped
  const t = newTally()
  t.margin = stand.fixed.margin
  frameBreaks(space.need, ground, c.frame, stand.rails, t, true)
  gapBreaks(ground, c.frame, gap, stand.rails.idleCrest_V, t, true)
  tryCopper(bench, ground, stand, c, gap, t, { all: true, outdone: () => false })
  return t.id === 'supply.runs' ? stopped : t.margin
}

/** Where nothing that was read can be put together: the candidate with the fewest turns, or what stops that one. */
function last(space: Space, ground: Ground, frames: readonly Frame[]): Nearest | Impossible | null {
  if (frames.length === 0) return null
  const fewest = frames.reduce((a, b) => (b.primary < a.primary ? b : a))
  const supply = supplyFrom(space, buildOf(space, ground, [...copperOf(fewest)][0]!), '')
  const judged = assess(supply)
  return judged.ok ? { supply, assessment: judged.value } : { problem: judged.problems[0]!.message }
}
