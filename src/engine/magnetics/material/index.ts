export {
  currentAtFall,
  fieldAtCurrent,
  fluxAtCurrent,
  inductanceAtCurrent,
  type WoundCore,
} from './gapped.ts'
export { igseConstant, type LossModel, lossModel, triangleLoss, waveformLoss } from './igse.ts'
export { type Knee, kneeFlux, kneePermeability } from './knee.ts'
export {
  fluxAt,
  hotSaturationFlux,
  judgedCore_C,
  kneeAt,
  type SaturationCurve,
  saturationCurve,
  saturationFlux,
} from './saturation.ts'
export { fitSteinmetz, type LossPoint, type SteinmetzFit, sineLoss, warmthFactor } from './steinmetz.ts'
