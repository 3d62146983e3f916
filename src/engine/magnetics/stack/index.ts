export { type ResistanceMatrix, resistanceClosedForm } from './ac-resistance.ts'
export { barrelPerimeter_m, coreLimit_m, fieldWidth_m, postDistance_m, turnLength_m } from './barrel.ts'
export {
  type CapacitanceSettings,
  type LayerCapacitance,
  layerCapacitances,
  selfCapacitance_F,
  usualCapacitance,
  windingCapacitance_F,
} from './capacitance.ts'
export { type InsulationBetween, insulationBetween } from './insulation.ts'
export { layOut, tightFill, turnsPerLayer } from './lay-out.ts'
export { type LeakageEstimate, leakageClosedForm } from './leakage.ts'
export { type GapShares, type LayerFields, layerFields } from './mean-square.ts'
export { wirePositions } from './positions.ts'
export { type RecommendationInput, recommendStack } from './recommend.ts'
export { type WindingCopper, windingCopper } from './resistance.ts'
export type {
  CoreWindow,
  Fit,
  ShieldEntry,
  StackEntry,
  StackError,
  StackInput,
  StackLayout,
  StackResult,
  TapeEntry,
  WindingEntry,
  WindingWire,
  WoundLayer,
  WoundSection,
  WoundShield,
  WoundTape,
} from './types.ts'
