export {
  type CurveRequest,
  foilThicknessLoss,
  strandCountLoss,
  strandDiameterLoss,
} from './conductor-curve.ts'
export { type ConductorField, conductorFields } from './conductor-field.ts'
export type { Conductor } from './conductors.ts'
export { type CopperLoss, copperLoss, harmonicLoss_W } from './copper-loss.ts'
export { type FieldMap, fieldMap } from './field-map.ts'
export { type GapLoss, type GapLossResult, gapLoss } from './gap-loss.ts'
export { gapShare, postGap, spacerGaps, spreadGap } from './gap-placement.ts'
export { prepareSection, type RowLossResult, type SectionLoss, sectionLossAt } from './section-loss.ts'
export type { SectionModel } from './section-model.ts'
export type { Band, Slot } from './slot.ts'
export {
  inductanceMatrix_H,
  leakage_H,
  type StackField,
  type StackResistances,
  stackField,
  stackResistances,
  windowInductance_H,
} from './stack-field.ts'
export type { Row, WallGap, WindowModel } from './types.ts'
export { type Harmonics, piecewiseLinearHarmonics } from './waveform-harmonics.ts'
export { solveWindow, type WindowField } from './window-field.ts'
