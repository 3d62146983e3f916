export { type ColdTell, type FaultCardRow, faultCard } from './faults/fault-card.ts'
export { logLikelihood, overlap } from './faults/likelihood.ts'
export { type NextMeasurement, nextMeasurement, type Outcome } from './faults/next.ts'
export { type Evidence, type Ranked, type Ranking, rank } from './faults/rank.ts'
export { faultTable, faultTableKey, healthyId, type TableLamp } from './faults/table.ts'
export type { FaultRow, FaultTable, Signature, Symptom, Trace } from './faults/types.ts'
export type { Finding, Fix } from './gate/finding.ts'
export { type HeatCheck, type HeatItem, type HeatReadings, heatCheck } from './heat-check.ts'
export { type Instrument, type InstrumentId, instrumentName, instruments } from './instruments.ts'
export {
  type AsBuiltOffer,
  type Judged,
  type Judgement,
  judge,
  type StageProgress,
  type Standing,
} from './judge.ts'
export {
  firstNoiseStep,
  type NoiseProgress,
  type NoiseStep,
  type NoiseVerdict,
  noisePath,
  noiseSteps,
  noiseVerdicts,
} from './noise-path.ts'
export { chooseLamp, type LampChoice } from './plan/lamp-forecast.ts'
export { powerUpPlan } from './plan/power-up-plan.ts'
export {
  type Check,
  type Chosen,
  type Expected,
  type ExpectedState,
  type LampForecast,
  type Plan,
  type Probe,
  type ScopeSettings,
  type SmallerForecast,
  type Stage,
  type StageId,
  type StopRule,
  stageIds,
  type Way,
} from './plan/types.ts'
export { type Gate, type GateNumbers, transformerGate } from './transformer-gate.ts'
export { type ThermometerSpot, thermometerSpots } from './unit/warm-up.ts'
