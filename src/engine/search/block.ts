import { type Assessment, assess, withLoopLimits } from '../limits/index.ts'
import type { Build } from '../supply/build.ts'
import { type Answer, outdone, withAnswer } from './front.ts'
import type { LeanMeasures, Zeal } from './lean/answer.ts'
import type { Bench } from './lean/bench.ts'
import { copperCount, decideFrame, judgeFrame, tryCopper } from './lean/decide.ts'
import { lossSlack, newTally } from './lean/tally.ts'
import { type Measures, measuresOf, roundLoss, roundMargin, sizeOf } from './measures.ts'
import { buildOf, type Candidate, supplyFrom } from './space/candidate.ts'
import { type Frame, framesOf, type Ground, groundOf } from './space/frames.ts'
import type { Block, Space } from './space/space.ts'

/** How many candidates went which way. */
export interface Counts {
  /** Let go in whole branches by bounds, without being looked at one by one. */
  readonly pruned: number
  /** Decided in closed form, one by one. */
  readonly decided: number
  /** Of those, all decisive limits held. */
  readonly held: number
  /** Of those, assessed as a whole. */
  readonly assessed: number
}

export const noCounts: Counts = { pruned: 0, decided: 0, held: 0, assessed: 0 }

export const addCounts = (a: Counts, b: Counts): Counts => ({
  pruned: a.pruned + b.pruned,
  decided: a.decided + b.decided,
  held: a.held + b.held,
  assessed: a.assessed + b.assessed,
})

export interface BlockResult {
  readonly front: readonly Answer[]
  readonly counts: Counts
  /** Whether some candidate of the block is known to hold every limit. */
  readonly holds: boolean
  /** Where none is known: one whose decisive limits hold, that other answers outdo. */
  readonly spare: Spare | null
}

/** A supply that is of no use as an answer, and may show that its core and switcher can be built with all the same. */
export interface Spare {
  readonly core: number
  readonly switcher: number
  readonly build: Build
  /** The most that its weakest limit can leave. */
  readonly margin: number
}

/** A candidate whose decisive limits hold, with measures that the whole evaluation can only make worse. */
interface Hopeful {
  readonly candidate: Candidate
  readonly measures: Measures
  readonly loss_W: number
}

/** A block on its way. */
interface Walk {
  readonly bench: Bench
  readonly ground: Ground
  readonly size_cm3: number
  front: readonly Answer[]
  holds: boolean
  pruned: number
  decided: number
  held: number
  assessed: number
  /** Outdone candidates with the widest margins so far: one of them may still show that the block can be built. */
  readonly spare: { readonly candidate: Candidate; readonly margin: number }[]
}

/** How many spare candidates are looked at before a block counts as one that nothing was found in. */
const mostSpare = 8

/**
 * Searches one core with one switcher: every frame and every copper, bounds first, then the decisive limits in closed
 * form, then the whole evaluation of those that could be answers. Nothing that holds every limit is let go, unless
 * another is at least as good in everything. `keepOne`: whether to keep a spare where nothing of the block is an answer.
 */
export function searchBlock(
  bench: Bench,
  block: Block,
  front: readonly Answer[],
  keepOne: boolean,
): BlockResult {
  const { space } = bench
  const ground = groundOf(space, block)
  if (ground === null) return { front, counts: noCounts, holds: false, spare: null }
  const walk: Walk = {
    bench,
    ground,
    size_cm3: sizeOf({ core: space.cores[block.core]!.core }),
    front,
    holds: false,
    pruned: 0,
    decided: 0,
    held: 0,
    assessed: 0,
    spare: [],
  }
  const hopefuls: Hopeful[] = []
  for (const frame of framesOf(space, ground)) {
    const decided = tryFrame(walk, frame, hopefuls)
    walk.pruned += copperCount(frame) - decided
    walk.decided += decided
  }
  walk.held = hopefuls.length
  // From the best of the block on, so that what they outdo is not assessed.
  hopefuls.sort((a, b) => b.measures.margin_percent - a.measures.margin_percent || a.loss_W - b.loss_W)
  for (const hopeful of hopefuls) weigh(walk, hopeful)
  const spare = keepOne && !walk.holds ? spareOf(walk) : null
  const { pruned, decided, held, assessed } = walk
  return { front: walk.front, holds: walk.holds, spare, counts: { pruned, decided, held, assessed } }
}

/** Of the spare candidates the one with the widest margins whose decisive limits hold when all of them are read. */
function spareOf(walk: Walk): Spare | null {
  const { bench, ground } = walk
  const { core, switcher } = ground.block
  for (const { candidate, margin } of walk.spare.sort((a, b) => b.margin - a.margin))
    if (holdsLeanly(walk, candidate))
      return { core, switcher, build: buildOf(bench.space, ground, candidate), margin }
  return null
}

function holdsLeanly(walk: Walk, c: Candidate): boolean {
  const framed = judgeFrame(walk.bench, walk.ground, c.frame, newTally())
  if (framed === null) return false
  const { stand, gap } = framed
  return tryCopper(walk.bench, walk.ground, stand, c, gap, newTally(), thorough).is === 'holds'
}

/** Judged to the end, whatever else there is. */
const thorough: Zeal = { all: false, outdone: () => false }

/** Assesses a hopeful candidate as a whole, unless it is outdone by now. */
function weigh(walk: Walk, { candidate, measures, loss_W }: Hopeful): void {
  if (outdone(walk.front, measures, loss_W)) {
    keepSpare(walk, candidate, measures.margin_percent)
    return
  }
  walk.assessed++
  const answer = judgeWhole(walk, candidate)
  if (answer === null) return
  walk.holds = true
  walk.front = withAnswer(walk.front, answer)
}

const judgeWhole = ({ bench, ground }: Walk, c: Candidate): Answer | null =>
  answerOf(bench.space, ground, c, (fast) => bench.loops.judge(ground, c.frame, fast))

function keepSpare({ spare, holds }: Walk, candidate: Candidate, margin: number): void {
  if (holds) return
  if (spare.length < mostSpare) spare.push({ candidate, margin })
  else {
    let least = 0
    for (let i = 1; i < spare.length; i++) if (spare[i]!.margin < spare[least]!.margin) least = i
    if (margin > spare[least]!.margin) spare[least] = { candidate, margin }
  }
}

/** The answer that a candidate makes where it holds every limit, its loop's too; null where it does not. */
function answerOf(
  space: Space,
  ground: Ground,
  c: Candidate,
  loop: (a: Assessment) => Assessment | null = withLoopLimits,
): Answer | null {
  const build = buildOf(space, ground, c)
  const fast = assess(supplyFrom(space, build, ''))
  if (!fast.ok || !fast.value.holds) return null
  const whole = loop(fast.value)
  if (!whole?.holds) return null
  const measured = measuresOf(space, build, whole)
  if (measured === null) return null
  const { exactLoss_W, ...measures } = measured
  const { id, title, margin } = whole.givesFirst
  return { build, measures, exactLoss_W, limit: { id, title, margin } }
}

/** Tries every copper on a frame; gives how many were looked at. */
function tryFrame(walk: Walk, frame: Frame, hopefuls: Hopeful[]): number {
  const { bench, ground } = walk
  const { space } = bench
  if (bench.loops.hopeless(ground, frame)) return 0
  const rounded = (c: Candidate, m: LeanMeasures): Measures => ({
    loss_W: roundLoss(space, m.loss_W * (1 - lossSlack)),
    size_cm3: walk.size_cm3,
    buy: bench.toBuy(ground, c),
    margin_percent: roundMargin(m.margin),
    effort: m.effort,
  })
  const zealFor = (c: Candidate): Zeal => ({
    all: false,
    outdone: (m) => outdone(walk.front, rounded(c, m), m.loss_W * (1 - lossSlack)),
  })
  return decideFrame(bench, ground, frame, zealFor, (candidate, answer, t) => {
    if (answer.is === 'outdone') keepSpare(walk, candidate, t.margin)
    else if (answer.is === 'holds')
      hopefuls.push({
        candidate,
        loss_W: answer.loss_W * (1 - lossSlack),
        measures: rounded(candidate, answer),
      })
  })
}
