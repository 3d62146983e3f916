import { type Assessment, assess, withLoopLimits } from '../limits/index.ts'
import { conductorSize_m, copperSkinDepth_m } from '../magnetics/wire/index.ts'
import type { Gap } from '../supply/resolve/gap.ts'
import { type Answer, outdone, withAnswer } from './front.ts'
import { type Bench, gapOf, partsWith, type Stand } from './lean/bench.ts'
import { fluxAtLimit_T, frameBreaks, gapBreaks } from './lean/frame-limits.ts'
import { type LeanAnswer, type LeanMeasures, leanly, leanlyAtBest, type Zeal } from './lean/lean.ts'
import { quickCoil } from './lean/quick-coil.ts'
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
const copperCount = ({ stacks }: Frame): number =>
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
 * another is at least as good in everything. `prove`: whether to make sure that the block holds something at all.
 */
export function searchBlock(
  bench: Bench,
  block: Block,
  front: readonly Answer[],
  prove: boolean,
): BlockResult {
  const { space } = bench
  const ground = groundOf(space, block)
  if (ground === null) return { front, counts: noCounts, holds: false }
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
  if (prove && !walk.holds) walk.holds = walk.spare.some(({ candidate }) => proves(walk, candidate))
  const { pruned, decided, held, assessed } = walk
  return { front: walk.front, holds: walk.holds, counts: { pruned, decided, held, assessed } }
}

/** Whether a candidate that is of no use as an answer holds all the same. */
function proves(walk: Walk, c: Candidate): boolean {
  const stand = walk.bench.knownStand(walk.ground, c.frame)
  const gap = gapOf(walk.ground, c.frame.parts, c.frame.turns)
  if (gap === null || stand === undefined || typeof stand === 'string') return false
  const lean = tryCopper(walk.bench, walk.ground, stand, c, gap, newTally(), thorough)
  if (lean.is !== 'holds') return false
  walk.assessed++
  return judgeWhole(walk, c) !== null
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
  const early = newTally()
  const known = bench.knownStand(ground, frame)
  if (typeof known === 'string' || (known && known.fixed.margin < -slack)) return 0
  const rails = bench.knownRails(frame.around)
  if (rails && frameBreaks(space.need, ground, frame, rails, early, false)) return 0
  const gap = gapOf(ground, frame.parts, frame.turns)
  if (gap === null) return 0
  if (rails && gapBreaks(ground, frame, gap, rails.idleCrest_V, early, false)) return 0
  let stand: Stand | null = known ?? null
  let decided = 0
  for (const c of copperOf(frame)) {
    if (stand === null) {
      const found = bench.stand(ground, c)
      if (typeof found === 'string') return 0
      if (found === null) {
        decided++
        continue
      }
      stand = found
      const breaks =
        stand.fixed.margin < -slack ||
        (!rails &&
          (frameBreaks(space.need, ground, frame, stand.rails, early, false) ||
            gapBreaks(ground, frame, gap, stand.rails.idleCrest_V, early, false)))
      if (breaks) return decided
    }
    decided++
    const t = newTally()
    t.margin = early.margin
    t.id = early.id
    const rounded = (m: LeanMeasures): Measures => ({
      loss_W: roundLoss(space, m.loss_W * (1 - lossSlack)),
      size_cm3: walk.size_cm3,
      buy: bench.toBuy(ground, c),
      margin_percent: roundMargin(m.margin),
      effort: m.effort,
    })
    const answer = tryCopper(bench, ground, stand, c, gap, t, {
      all: false,
      outdone: (m) => outdone(walk.front, rounded(m), m.loss_W * (1 - lossSlack)),
    })
    if (answer.is === 'outdone') keepSpare(walk, c, t.margin)
    else if (answer.is === 'unsure')
      hopefuls.push({
        candidate: c,
        loss_W: 0,
        measures: rounded({ loss_W: 0, margin: 1, effort: 0 }),
      })
    else if (answer.is === 'holds')
      hopefuls.push({
        candidate: c,
        loss_W: answer.loss_W * (1 - lossSlack),
        measures: rounded(answer),
      })
  }
  return decided
}

/** Judges one copper of a frame: window and wire first, then a coil better than its own, then its own. */
export function tryCopper(
  bench: Bench,
  ground: Ground,
  stand: Stand,
  c: Candidate,
  gap: Gap,
  t: Tally,
  zeal: Zeal,
): LeanAnswer {
  const { space } = bench
  const { all } = zeal
  const { former } = space.cores[ground.block.core]!
  const { biasWire, tape } = stand.parts
  const quick = quickCoil(
    space.need,
    former,
    ground.facts,
    tape.thickness_m,
    c.frame.turns,
    c.stack,
    { primary: c.primaryWire, secondary: c.secondaryWire, bias: biasWire },
    tapesOf(space.need, c.stack),
  )
  if (atMost(t, 'transformer.hand-fit', quick?.fill ?? 10, handFill) && !all) return { is: 'breaks' }
  const skin_m = skinDepths_m(ground)
  const thick =
    meets(t, 'primary.wire-skin', conductorSize_m(c.primaryWire) <= skinLimit * skin_m) ||
    meets(t, 'secondary.wire-skin', conductorSize_m(c.secondaryWire) <= skinLimit * skin_m)
  if (quick === null || (thick && !all)) return { is: 'breaks' }
  const { primaryInHand, secondaryInHand, layers } = quick
  const kinds = kindsOf(c.primaryWire.id, c.secondaryWire.id, biasWire.id)
  const effort = effortOf(layers, primaryInHand, secondaryInHand, kinds, c.stack)
  const fluxAt = (crest_V: number) => fluxAtLimit_T(ground, c.frame, gap, crest_V)
  if (!all) {
    // First with the least leakage that such a coil can have, then with its own.
    for (const own of [false, true]) {
      const leakage_H = own ? bench.leakage_H(ground, c, stand.parts, quick) : quick.leastLeakage_H
      if (leakage_H === null) return { is: 'breaks' }
      if (atMost(t, 'transformer.leakage', leakage_H / gap.inductance_H.typical, 0.05))
        return { is: 'breaks' }
      const leakage = { value_H: leakage_H, own }
      const best = leanlyAtBest(space, stand, c, gap, quick, leakage, effort, fluxAt, t, zeal)
      if (best.is !== 'unsure') return best
    }
  }
  // Classes and counts take an assessment to tell where they are not known yet: those first, these last.
  const known = bench.knownUnmet(ground, c, quick)
  const early = all ? bench.unmet(ground, c, quick) : known
  if (early !== undefined && meets(t, early ?? '', early === null) && !all) return { is: 'breaks' }
  const coil = bench.coil(ground, c, partsWith(stand, c), primaryInHand, secondaryInHand)
  if (coil === null) {
    t.margin = Math.min(t.margin, -1)
    t.id = 'transformer.hand-fit'
    return { is: 'breaks' }
  }
  if (atMost(t, 'transformer.leakage', coil.leakage_H / gap.inductance_H.typical, 0.05) && !all)
    return { is: 'breaks' }
  const lean = leanly(space, stand, c, gap, coil, effort, fluxAt, t, zeal)
  if (lean.is !== 'holds' || early !== undefined) return lean
  const unmet = bench.unmet(ground, c, quick)
  return meets(t, unmet ?? '', unmet === null) ? { is: 'breaks' } : lean
}
