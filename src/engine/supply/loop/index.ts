export { type BiasRow, type BiasTable, biasOf } from './bias-of.ts'
export { askedMargin_deg, askedShare, boundedPhase_deg, suggestFor } from './choose-network.ts'
export { compareProof, type ProofComparison, proofRange } from './compare-proof.ts'
export { type Corner, type Feedback, loopRuns } from './corners.ts'
export { bandOf, curveOf, frequenciesBetween, type LoopBand, type LoopCurve } from './curves.ts'
export { type Lean, leanInWords } from './lean.ts'
export { type CornerWithMargins, gainRoom_dB, type Loop, loopAt, loopOf } from './loop-of.ts'
export {
  type Proof,
  type ProofFailure,
  type ProofPoint,
  proveLoop,
  type SwitchedStep,
  switchedStep,
} from './prove.ts'
export { type LoadRipple, loadRippleOf, type RippleLine, type RippleTable, rippleOf } from './ripple-of.ts'
export { type RemedyPart, type RippleRemedy, rippleRemedies } from './ripple-remedies.ts'
export { type StepKind, type StepPlan, stepOf, stepPlan, switchedOf, withStep } from './steps-of.ts'
export type { SwitchedLoop } from './switched/loop.ts'
export { type TrimTable, trimOf } from './trim-of.ts'
