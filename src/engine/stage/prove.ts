import type { Evaluation } from '../supply/evaluation.ts'
import { corners } from './corner.ts'
import { type Finding, findingOf } from './findings.ts'
import { cornerGroups, type ProvedCorner, proveGroup } from './proved-corner.ts'
import { type ProvedLimit, provedEvaluation, provedLimits } from './proved-limits.ts'

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
  const limits = provedLimits(evaluation, readings)
  const plain = limits.map(({ limit }) => limit)
  return {
    depth: 'periodic steady state',
    corners: sorted,
    findings: sorted.flatMap((corner) => findingOf(evaluation.design, corner, plain) ?? []),
    readings: { conditions: readings.conditions, fixed: readings.fixed },
    limits,
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
