import { judge, powerUpPlan } from '../../engine/bench/index.ts'
import type { Assessment } from '../../engine/limits/index.ts'
import { benchLogPaper } from '../../engine/papers/bench-log.ts'
import type { Paper } from '../../engine/papers/document.ts'
import { powerUpPaper } from '../../engine/papers/power-up.ts'
import type { Drawer } from '../../engine/parts/part.ts'

/** Papers of the bench: the power-up card, and the record of what was read. */
export const benchPaperNames = ['power-up', 'bench-log'] as const
export type BenchPaperName = (typeof benchPaperNames)[number]

/** One paper of the bench, its plan made with the instruments of the supply and the lamps of the drawer. */
export function benchPaperOf(name: BenchPaperName, { evaluation }: Assessment, drawer: Drawer | null): Paper {
  const { bench } = evaluation.design.supply
  const lamps = drawer?.entries.flatMap(({ part }) => (part.kind === 'lamp' ? [part] : [])) ?? []
  const plan = powerUpPlan(evaluation, bench.instruments, lamps)
  return name === 'power-up'
    ? powerUpPaper(evaluation, plan)
    : benchLogPaper(evaluation, bench.log, judge(plan, bench.log, bench.ticked).checks)
}

/** What a record carries of the bench: the card, and the log once something was read. */
export const benchPapersOf = (assessment: Assessment, drawer: Drawer | null): readonly Paper[] =>
  benchPaperNames
    .filter((name) => name === 'power-up' || assessment.evaluation.design.supply.bench.log.length > 0)
    .map((name) => benchPaperOf(name, assessment, drawer))
