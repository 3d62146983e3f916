import type { Design } from '../supply/design.ts'
import { type Comparison, compare } from './compare.ts'
import { type Corner, corners } from './corner.ts'
import { runCorner } from './corner-run.ts'
import type { StageCycleFailure, StageCycleRun } from './cycle.ts'
import { type CycleFigures, cycleFigures } from './figures.ts'
import { pointAt } from './point.ts'

/** A corner with its solved cycle beside the closed form. Plain data: it may pass between threads. */
export interface SolvedCorner {
  readonly corner: Corner
  readonly ok: true
  readonly bulk_V: number
  readonly figures: CycleFigures
  /** Output current of the closed form, the standing load with it. */
  readonly closedOutput_A: number
  /** Flux linkage of the closed form: its peak current through an inductance that does not fall. */
  readonly closedLinkage_Vs: number
  readonly comparisons: readonly Comparison[]
  /** Cycles after which it repeats; 0 where it never does and the figures are means over many. */
  readonly repeatsAfter: number
  /** Even the shortest pulse gives too much: the chip leaves some out unevenly. */
  readonly skips: boolean
  /** Current flows on from pulse to pulse; otherwise the core empties, and a pulse starts in the ring of the last. */
  readonly continuous: boolean
  /** Clock periods from pulse to pulse. */
  readonly clocks: number
  readonly multiplier: number
  readonly residual: number
}

export interface UnsolvedCorner {
  readonly corner: Corner
  readonly ok: false
  readonly code: StageCycleFailure['code'] | 'no-working-point'
  readonly message: string
}

export type ProvedCorner = SolvedCorner | UnsolvedCorner

/**
 * Corners of one input, bulk point and load: each starts from the cycle of the one before. Those at the current limit,
 * which take longest, come first, so that two workers end together.
 */
export const cornerGroups: readonly (readonly Corner[])[] = (() => {
  const groups = new Map<string, Corner[]>()
  for (const corner of corners) {
    const key = corner.kind === 'steady' ? `${corner.input} ${corner.bulk} ${corner.load}` : corner.id
    groups.set(key, [...(groups.get(key) ?? []), corner])
  }
  const limited = (group: readonly Corner[]) => (group[0]!.kind === 'steady' ? 1 : 0)
  return [...groups.values()].sort((a, b) => limited(a) - limited(b))
})()

/** Solves the corners of one group, one after the other. */
export function proveGroup(d: Design, group: readonly Corner[], cancelled?: () => boolean): ProvedCorner[] {
  let near: StageCycleRun | undefined
  return group.map((corner): ProvedCorner => {
    const point = pointAt(d, corner)
    if (point === null)
      return {
        corner,
        ok: false,
        code: 'no-working-point',
        message: 'the bulk voltage collapses between crests, or losses outgrow the power drawn',
      }
    const run = runCorner(d, point, near, cancelled)
    if (!run.ok) return { corner, ok: false, code: run.code, message: run.message }
    const p = run.parameters
    if (run.repeatsAfter > 0) near = run
    const figures = cycleFigures(run)
    return {
      corner,
      ok: true,
      bulk_V: p.bulk_V,
      figures,
      closedOutput_A: p.output_A,
      closedLinkage_Vs: p.magnetising_H * point.readings.primaryPeak_A,
      comparisons: compare(point, p, figures),
      repeatsAfter: run.repeatsAfter,
      skips: run.skips === true,
      continuous: p.expected.valley_A > 0,
      clocks: run.clocks,
      multiplier: Number.isFinite(run.multiplier) ? run.multiplier : 0,
      residual: run.residual,
    }
  })
}
