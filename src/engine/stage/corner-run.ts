import type { Design } from '../supply/design.ts'
import { type StageCycleFailure, type StageCycleRun, solveCycle } from './cycle.ts'
import { stageParameters } from './parameters.ts'
import type { Point } from './point.ts'
import { settledRun } from './settled.ts'

/** Why a cycle was not found, where pulses that differ may hold the output all the same. */
const uneven: ReadonlySet<StageCycleFailure['code']> = new Set([
  'no-cycle',
  'unstable',
  'subharmonic',
  'too-much-at-least',
])

/**
 * The stage at a corner: its repeating cycle, or a settled stretch under its own feedback where the core empties in
 * every pulse and no single one repeats. While current flows on from pulse to pulse, pulses that differ are an unstable
 * current loop, and its failure stays one. `near` is a solved cycle of the same stage at another corner.
 */
export function runCorner(
  d: Design,
  point: Point,
  near?: StageCycleRun,
  cancelled?: () => boolean,
): StageCycleRun | StageCycleFailure {
  const p = stageParameters(d, point)
  const { kind } = point.corner
  const cycle = solveCycle(p, kind, near, cancelled)
  if (cycle.ok || kind !== 'steady' || p.expected.valley_A > 0 || !uneven.has(cycle.code)) return cycle
  const run = settledRun(d, p, cancelled)
  return run.ok ? { ...run, skips: cycle.code === 'too-much-at-least' } : run
}
