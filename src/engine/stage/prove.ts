import type { Design } from '../supply/design.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { type Corner, corners } from './corner.ts'
import { cornerGroups, type ProvedCorner, proveGroup } from './proved-corner.ts'
import { type ProvedLimit, provedEvaluation, provedLimits } from './proved-limits.ts'

/** Something that the corners show and the closed form cannot. */
export interface Finding {
  readonly code: 'cannot-hold' | 'skips' | 'subharmonic' | 'restless' | 'unsolved'
  readonly corner: Corner
  readonly sentence: string
}

/** Every corner of a supply solved, and its limits ranked anew. */
export interface Proof {
  readonly depth: 'periodic steady state'
  readonly corners: readonly ProvedCorner[]
  readonly findings: readonly Finding[]
  /** The evaluation with solved readings in place of those of the closed form where there are any. */
  readonly readings: Pick<Evaluation, 'conditions' | 'fixed'>
  /** Weakest first. */
  readonly limits: readonly ProvedLimit[]
}

/** Puts solved corners together: findings, readings and limits, weakest first. */
export function gatherProof(evaluation: Evaluation, solved: readonly ProvedCorner[]): Proof {
  const order = new Map(corners.map((corner, i) => [corner.id, i]))
  const sorted = [...solved].sort((a, b) => order.get(a.corner.id)! - order.get(b.corner.id)!)
  const readings = provedEvaluation(evaluation, sorted)
  return {
    depth: 'periodic steady state',
    corners: sorted,
    findings: sorted.flatMap((corner) => findingOf(evaluation.design, corner) ?? []),
    readings: { conditions: readings.conditions, fixed: readings.fixed },
    limits: provedLimits(evaluation, readings),
  }
}

/**
 * Solves every corner of a design as a repeating cycle at its wanted output, in this thread. `onProgress` is told the
 * fraction done after each group of corners. Null when cancelled.
 */
export function proveSupply(
  evaluation: Evaluation,
  onProgress?: (fraction: number) => void,
  cancelled?: () => boolean,
): Proof | null {
  const solved: ProvedCorner[] = []
  for (const group of cornerGroups) {
    if (cancelled?.() === true) return null
    solved.push(...proveGroup(evaluation.design, group, cancelled))
    onProgress?.(solved.length / corners.length)
  }
  return gatherProof(evaluation, solved)
}

function findingOf(d: Design, proved: ProvedCorner): Finding | null {
  const { corner } = proved
  if (proved.ok) {
    if (proved.repeatsAfter === 1) return null
    if (proved.repeatsAfter > 1)
      return {
        code: 'subharmonic',
        corner,
        sentence: `At ${corner.label} only every ${proved.repeatsAfter === 2 ? 'second' : `${proved.repeatsAfter}th`} pulse is alike: subharmonic oscillation, heard as hiss.`,
      }
    return {
      code: 'restless',
      corner,
      sentence: `At ${corner.label} no two pulses are alike: current limit and shortest on-time take turns. Figures there are over many cycles.`,
    }
  }
  if (proved.code === 'target-out-of-reach')
    return {
      code: 'cannot-hold',
      corner,
      sentence: `At ${corner.label} the stage cannot hold ${d.need.output_V} V: current limit or greatest duty end each pulse first.`,
    }
  if (proved.code === 'too-much-at-least')
    return {
      code: 'skips',
      corner,
      sentence: `At ${corner.label} even the shortest pulse gives too much (${proved.message}): the chip leaves pulses out, in bursts that the loop decides.`,
    }
  if (proved.code === 'subharmonic')
    return {
      code: 'subharmonic',
      corner,
      sentence: `At ${corner.label} no steady pulse exists: subharmonic oscillation (${proved.message}).`,
    }
  return { code: 'unsolved', corner, sentence: `${corner.label} could not be solved: ${proved.message}.` }
}
