import { handFill, thickestOverSkin } from '../../limits/rules/transformer.ts'
import { conductorSize_m, copperSkinDepth_m } from '../../magnetics/wire/index.ts'
import type { Gap } from '../../supply/resolve/gap.ts'
import { effortOf, kindsOf } from '../measures.ts'
import { type Candidate, copperOf, tapesOf } from '../space/candidate.ts'
import type { Frame, Ground } from '../space/frames.ts'
import type { LeanAnswer, Zeal } from './answer.ts'
import { bareBreaks, leanlyAtBest } from './at-best.ts'
import { type Bench, gapOf } from './bench.ts'
import { dressLaid, partsWith } from './dress.ts'
import { fluxAtLimit_T, frameBreaks, gapBreaks } from './frame-limits.ts'
import { leanly } from './points.ts'
import { type QuickCoil, quickCoil } from './quick-coil.ts'
import type { Start } from './settle.ts'
import type { Stand } from './stand.ts'
import { atMost, meets, newTally, slack, type Tally } from './tally.ts'

/** How many candidates copper makes of one frame. */
export const copperCount = ({ stacks }: Frame): number =>
  stacks.reduce((sum, s) => sum + s.primaryWires.length * s.secondaryWires.length, 0)

const skinsKnown = new WeakMap<Ground, number>()
const skinDepths_m = (ground: Ground): number => {
  let skin_m = skinsKnown.get(ground)
  if (skin_m === undefined) {
    skin_m = copperSkinDepth_m(ground.switcher.frequency_Hz.typical, 100)
    skinsKnown.set(ground, skin_m)
  }
  return skin_m
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
    meets(t, 'primary.wire-skin', conductorSize_m(c.primaryWire) <= thickestOverSkin * skin_m) ||
    meets(t, 'secondary.wire-skin', conductorSize_m(c.secondaryWire) <= thickestOverSkin * skin_m)
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
