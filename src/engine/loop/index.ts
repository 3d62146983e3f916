export * from './bias.ts'
export * from './corners.ts'
export { type Disturbance, DisturbanceResponse } from './disturbance.ts'
export * from './divider.ts'
export * from './feedback-path.ts'
export * from './loop-gain.ts'
export * from './margins.ts'
export {
  type FlybackStage,
  type Leakage,
  type OperatingPoint,
  operatingPoint,
  type StageFailure,
} from './operating-point.ts'
export {
  type Load,
  loadConductance,
  type OutputFilter,
  type SecondStage,
  secondResonance,
} from './output-filter.ts'
export { pathAt } from './path-at.ts'
export * from './path-from-parts.ts'
export { evaluate, type Rational, type Response, responseAt } from './polynomial.ts'
export * from './power-stage.ts'
export * from './ringing-rule.ts'
export * from './ripple.ts'
export * from './stage-warnings.ts'
export * from './step-response.ts'
export * from './suggest.ts'
export * from './transfer-ratio.ts'
