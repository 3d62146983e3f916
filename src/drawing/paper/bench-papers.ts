import { faultCard, judge, powerUpPlan } from '../../engine/bench/index.ts'
import type { Assessment } from '../../engine/limits/index.ts'
import { benchLogPaper } from '../../engine/papers/bench-log.ts'
import type { Paper } from '../../engine/papers/document.ts'
import { faultCardPaper } from '../../engine/papers/fault-card.ts'
import { powerUpPaper } from '../../engine/papers/power-up.ts'
import { probingPaper } from '../../engine/papers/probing.ts'
import { resultsPaper } from '../../engine/papers/results.ts'
import type { Drawer } from '../../engine/parts/part.ts'

/** Papers of the bench: power-up and probing, faults, the form for results, and the record of what was read. */
export const benchPaperNames = ['power-up', 'probing', 'fault-card', 'results', 'bench-log'] as const
export type BenchPaperName = (typeof benchPaperNames)[number]

/** One paper of the bench, its plan made with the instruments of the supply and the lamps of the drawer. */
export function benchPaperOf(name: BenchPaperName, { evaluation }: Assessment, drawer: Drawer | null): Paper {
  if (name === 'results') return resultsPaper(evaluation)
  if (name === 'fault-card') return faultCardPaper(evaluation, faultCard(evaluation))
  const { bench } = evaluation.design.supply
  const lamps = drawer?.entries.flatMap(({ part }) => (part.kind === 'lamp' ? [part] : [])) ?? []
  const plan = powerUpPlan(evaluation, bench.instruments, lamps)
  if (name === 'power-up') return powerUpPaper(evaluation, plan)
  return name === 'probing'
    ? probingPaper(
        evaluation,
        plan.stages.flatMap((stage) => stage.checks),
      )
    : benchLogPaper(evaluation, bench.log, judge(plan, bench.log, bench.ticked).checks)
}

/** What a record carries of the bench: its cards and forms, and the log once something was read. */
export const benchPapersOf = (assessment: Assessment, drawer: Drawer | null): readonly Paper[] =>
  benchPaperNames
    .filter((name) => name !== 'bench-log' || assessment.evaluation.design.supply.bench.log.length > 0)
    .map((name) => benchPaperOf(name, assessment, drawer))
