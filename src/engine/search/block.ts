import { type Assessment, assess, withLoopLimits } from '../limits/index.ts'
import { conductorSize_m, copperSkinDepth_m } from '../magnetics/wire/index.ts'
import type { Build } from '../supply/build.ts'
import type { Gap } from '../supply/resolve/gap.ts'
import { type Answer, outdone, withAnswer } from './front.ts'
import { type Bench, gapOf } from './lean/bench.ts'
import { dressLaid, partsWith } from './lean/dress.ts'
import { fluxAtLimit_T, frameBreaks, gapBreaks } from './lean/frame-limits.ts'
import {
  bareBreaks,
  type LeanAnswer,
  type LeanMeasures,
  leanly,
  leanlyAtBest,
  type Zeal,
} from './lean/lean.ts'
import { type QuickCoil, quickCoil } from './lean/quick-coil.ts'
import type { Start } from './lean/settle.ts'
import type { Stand } from './lean/stand.ts'
import { atMost, lossSlack, meets, newTally, slack, type Tally } from './lean/tally.ts'
import { effortOf, kindsOf, type Measures, measuresOf, roundLoss, roundMargin, sizeOf } from './measures.ts'
import { buildOf, type Candidate, copperOf, supplyFrom, tapesOf } from './space/candidate.ts'
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

/** How many candidates copper makes of one frame. */
export const copperCount = ({ stacks }: Frame): number =>
  stacks.reduce((sum, s) => sum + s.primaryWires.length * s.secondaryWires.length, 0)

/** Thickest wire over skin depth, the limit on it. */
const skinLimit = 2.5
const skinsKnown = new WeakMap<Ground, number>()
const skinDepths_m = (ground: Ground): number => {
  let skin_m = skinsKnown.get(ground)
  if (skin_m === undefined) {
    skin_m = copperSkinDepth_m(ground.switcher.frequency_Hz.typical, 100)
    skinsKnown.set(ground, skin_m)
  }
  return skin_m
}

/** Window fill that a hand reaches, the limit on it. */
const handFill = 0.85

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

/**
 * Decides every copper of a frame in closed form and shows each to `see`; gives how many were looked at one by one.
 * Limits that no copper mends come first, then the window, then those that no coil mends: what they break is let go.
 */
export function decideFrame(
  bench: Bench,
  ground: Ground,
  frame: Frame,
  zealFor: (c: Candidate) => Zeal,
  see: (c: Candidate, answer: LeanAnswer, t: Tally) => void,
): number {
  const early = newTally()
  const framed = frameOn(bench, ground, frame, early)
  if (framed === null) return 0
  const { stand, gap } = framed
  let decided = 0
  let bare: boolean | null = null
  for (const c of copperOf(frame)) {
    const t: Tally = { margin: early.margin, id: early.id }
    const quick = fits(bench, ground, stand, c, t, false)
    if (quick !== null) {
      bare ??= bareBreaks(bench.space, stand, frame, gap, early)
      if (bare) continue
      t.margin = Math.min(t.margin, early.margin)
      see(c, tryWound(bench, ground, stand, c, gap, quick, t, zealFor(c)), t)
    }
    decided++
  }
  return decided
}

/** Stand and gap of a frame; null where they break a limit that no copper mends. */
function frameOn(
  bench: Bench,
  ground: Ground,
  frame: Frame,
  t: Tally,
): { readonly stand: Stand; readonly gap: Gap } | null {
  const { space } = bench
  const stand = bench.stand(ground, frame)
  if (stand === null || typeof stand === 'string' || stand.fixed.margin < -slack) return null
  if (frameBreaks(space.need, ground, frame, stand.rails, t, false)) return null
  const gap = gapOf(ground, frame.parts, frame.turns)
  if (gap === null || gapBreaks(ground, frame, gap, stand.rails.idleCrest_V, t, false)) return null
  return { stand, gap }
}

/** What a frame's coppers share; null where a limit is broken whatever the copper. */
export function judgeFrame(
  bench: Bench,
  ground: Ground,
  frame: Frame,
  t: Tally,
): { readonly stand: Stand; readonly gap: Gap } | null {
  const framed = frameOn(bench, ground, frame, t)
  return framed === null || bareBreaks(bench.space, framed.stand, frame, framed.gap, t) ? null : framed
}

/** The coil of a candidate without its field; null where window, wires or pins do not take it. */
function fits(
  bench: Bench,
  ground: Ground,
  stand: Stand,
  c: Candidate,
  t: Tally,
  all: boolean,
): QuickCoil | null {
  const { space } = bench
  const { former } = space.cores[ground.block.core]!
  const quick = quickCoil(
    space.need,
    former,
    ground.facts,
    stand.parts.tape.thickness_m,
    c.frame.turns,
    c.stack,
    { primary: c.primaryWire, secondary: c.secondaryWire, bias: stand.parts.biasWire },
    tapesOf(space.need, c.stack),
  )
  if (atMost(t, 'transformer.hand-fit', quick?.fill ?? 10, handFill) && !all) return null
  const skin_m = skinDepths_m(ground)
  const thick =
    meets(t, 'primary.wire-skin', conductorSize_m(c.primaryWire) <= skinLimit * skin_m) ||
    meets(t, 'secondary.wire-skin', conductorSize_m(c.secondaryWire) <= skinLimit * skin_m)
  if (quick === null || (thick && !all)) return null
  // Classes and counts that are not known yet take a look of their own: they come last.
  const known = all ? bench.unmet(ground, c, quick) : bench.knownUnmet(ground, c, quick)
  return known !== undefined && meets(t, known ?? '', known === null) && !all ? null : quick
}

/** Judges one copper of a frame: window and wire first, then its coil laid out, then wound. */
export function tryCopper(
  bench: Bench,
  ground: Ground,
  stand: Stand,
  c: Candidate,
  gap: Gap,
  t: Tally,
  zeal: Zeal,
): LeanAnswer {
  const quick = fits(bench, ground, stand, c, t, zeal.all)
  return quick === null ? broken : tryWound(bench, ground, stand, c, gap, quick, t, zeal)
}

/** The same of a copper that fits. */
function tryWound(
  bench: Bench,
  ground: Ground,
  stand: Stand,
  c: Candidate,
  gap: Gap,
  quick: QuickCoil,
  t: Tally,
  zeal: Zeal,
): LeanAnswer {
  const { space } = bench
  const { all } = zeal
  const { primaryInHand, secondaryInHand, layers } = quick
  const kinds = kindsOf(c.primaryWire.id, c.secondaryWire.id, stand.parts.biasWire.id)
  const effort = effortOf(layers, primaryInHand, secondaryInHand, kinds, c.stack)
  const fluxAt = (crest_V: number) => fluxAtLimit_T(ground, c.frame, gap, crest_V)
  const leaks = (leakage_H: number): boolean =>
    atMost(t, 'transformer.leakage', leakage_H / gap.inductance_H.typical, 0.05) && !all
  if (leaks(quick.leastLeakage_H)) return broken
  const laid = bench.laid(ground, c, partsWith(stand, c), quick)
  if (laid === null) {
    t.margin = Math.min(t.margin, -1)
    t.id = 'transformer.hand-fit'
    return broken
  }
  if (leaks(laid.leakage_H)) return broken
  dressLaid(stand, space, c.frame, gap, laid)
  let start: Start | null = null
  if (!all) {
    const best = leanlyAtBest(space, stand, c, quick, laid, effort, fluxAt, t, zeal)
    if (best.answer.is !== 'unsure') return best.answer
    start = best.found
  }
  const lean = leanly(space, stand, c, bench.coil(ground, c, laid), start, effort, fluxAt, t, zeal)
  if (lean.is !== 'holds' || all) return lean
  const unmet = bench.unmet(ground, c, quick)
  return meets(t, unmet ?? '', unmet === null) ? broken : lean
}

const broken: LeanAnswer = { is: 'breaks' }
