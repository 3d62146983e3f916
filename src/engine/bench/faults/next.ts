import type { Check, Plan, StageId } from '../plan/types.ts'
import { stageIds } from '../plan/types.ts'
import { overlap } from './likelihood.ts'
import type { Ranking } from './rank.ts'
import type { FaultRow, Symptom, Trace } from './types.ts'

/** What one of the leaders would make of the next measurement. */
export interface Outcome {
  readonly fault: string
  readonly title: string
  readonly trace: Trace
}

export interface NextMeasurement {
  readonly check: Check
  /** How well it tells the first two apart: 0 not at all, 1 surely. */
  readonly separation: number
  readonly outcomes: readonly Outcome[]
  /** A better one that cannot be taken with the instruments at hand; null where this is the best. */
  readonly insteadOf: Check | null
}

/** How willingly a measurement is taken at each stage: unpowered first. */
const ease: Readonly<Record<StageId, number>> = {
  cold: 1,
  'low-energy': 0.95,
  transformer: 0.85,
  'smaller-chip': 0.5,
  lamp: 0.6,
  'lamp-load': 0.5,
  'line-0': 0.35,
  'line-10': 0.32,
  'line-50': 0.28,
  'line-90': 0.25,
  'line-100': 0.25,
  short: 0.1,
  soak: 0.2,
  'sign-off': 0.1,
}
/** Live measurements while a leader endangers parts. */
const whenDangerous = 0.3
/** Least separation worth a measurement. */
const worthwhile = 0.35

/**
 * The measurement that separates the leaders best: mean of one minus overlap over all pairs of leaders, weighted by
 * their chances, the first two counted most, times the ease of its stage. Only those that can be taken with the
 * instruments of the plan; null when none separates the leaders.
 */
export function nextMeasurement(
  ranking: Ranking,
  taken: readonly Symptom[],
  plan: Pick<Plan, 'stages' | 'inTrouble'>,
): NextMeasurement | null {
  const leaders = ranking.leaders.length > 1 ? ranking.leaders : ranking.ranked.slice(0, 3)
  const [first, second] = leaders
  if (first === undefined || second === undefined) return null
  const done = new Set(taken.map((s) => s.check))
  const dangerous = leaders.some((l) => l.row.danger !== '')
  const all = [...plan.stages.flatMap((s) => s.checks), ...plan.inTrouble].filter((c) => !done.has(c.id))
  const scored = all
    .map((check) => {
      const apart = 1 - between(check.id, first.row, second.row)
      let rest = 0
      let weights = 0
      for (let i = 0; i < leaders.length; i++)
        for (let j = i + 1; j < leaders.length; j++) {
          const w = leaders[i]!.chance * leaders[j]!.chance
          rest += w * (1 - between(check.id, leaders[i]!.row, leaders[j]!.row))
          weights += w
        }
      const value = 0.7 * apart + 0.3 * (weights > 0 ? rest / weights : 0)
      const care = check.live && dangerous ? whenDangerous : 1
      return { check, apart, score: apart < worthwhile ? 0 : value * ease[check.stage] * care }
    })
    .filter((s) => s.score > 0)
    .sort((a, b) => b.score - a.score || stageIds.indexOf(a.check.stage) - stageIds.indexOf(b.check.stage))
  const best = scored[0]
  const takeable = scored.find((s) => s.check.chosen.state !== 'skipped')
  if (takeable === undefined) return null
  return {
    check: takeable.check,
    separation: takeable.apart,
    outcomes: leaders.flatMap(({ row }) => {
      const trace = row.signature[takeable.check.id]
      return trace ? [{ fault: row.id, title: row.title, trace }] : []
    }),
    insteadOf: best === takeable || best === undefined ? null : best.check,
  }
}

const between = (check: string, a: FaultRow, b: FaultRow): number =>
  overlap(check, a.signature[check], b.signature[check])
