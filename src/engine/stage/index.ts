export type { Comparison } from './compare.ts'
export { type BulkPoint, type Corner, cornerById, corners } from './corner.ts'
export { type StageCycleFailure, type StageCycleRun, solveCycle } from './cycle.ts'
export { type CycleFigures, cycleFigures } from './figures.ts'
export { type Finding, spoils } from './findings.ts'
export { loadFor, type StageLoad } from './load.ts'
export { type StageParameters, stageParameters } from './parameters.ts'
export { type Point, pointAt } from './point.ts'
export type { StageFaults } from './power-stage.ts'
export { type StageTrace, stageForms, stageProbes, stageTraces } from './probes.ts'
export { gatherProof, type Proof, proveSupply } from './prove.ts'
export {
  cornerGroups,
  type ProvedCorner,
  proveGroup,
  type SolvedCorner,
  type UnsolvedCorner,
} from './proved-corner.ts'
export type { ProvedLimit } from './proved-limits.ts'
export { type TimeRunId, timeRunIds, timeRuns } from './runs/plans.ts'
export {
  runInTime,
  type TimeRunFailure,
  type TimeRunOptions,
  type TimeRunOutcome,
} from './runs/run-in-time.ts'
export type { RunTrace } from './runs/trace.ts'
export type { PassedLimit } from './runs/watch.ts'
export { type ScopeSetting, scopeSetting, timePerDivision_s } from './scope.ts'
export { deckOf, type StageDeck, stageDeck } from './stage-deck.ts'
export { type StageWave, type StageWaveFailure, stageWave } from './wave.ts'
