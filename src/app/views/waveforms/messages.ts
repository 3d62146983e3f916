import type {
  ProvedCorner,
  StageDeck,
  StageWave,
  StageWaveFailure,
  TimeRunFailure,
  TimeRunId,
  TimeRunOptions,
  TimeRunOutcome,
} from '../../../engine/stage/index.ts'
import type { Problem } from '../../../engine/supply/result.ts'
import type { Supply } from '../../../engine/supply/supply.ts'

/** What can be solved beside the page. */
export type Job =
  | { readonly kind: 'wave'; readonly corner: string }
  | { readonly kind: 'group'; readonly group: number }
  /** Solves something of little use, so that what comes next finds its code compiled. */
  | { readonly kind: 'warm' }
  | { readonly kind: 'run'; readonly run: TimeRunId; readonly options: TimeRunOptions }
  | { readonly kind: 'deck'; readonly corner: string }

export interface Answers {
  readonly wave: StageWave | StageWaveFailure
  readonly group: readonly ProvedCorner[]
  readonly warm: null
  readonly run: TimeRunOutcome | TimeRunFailure
  readonly deck: { readonly ok: true; readonly text: string } | Exclude<StageDeck, { readonly ok: true }>
}

export interface Request {
  readonly id: number
  readonly supply: Supply
  readonly job: Job
}

export type Reply =
  | { readonly id: number; readonly is: 'progress'; readonly fraction: number }
  | { readonly id: number; readonly is: 'answer'; readonly value: Answers[Job['kind']] }
  | { readonly id: number; readonly is: 'problems'; readonly problems: readonly Problem[] }
