export { type GapShares, type ResistanceMatrix, resistanceClosedForm } from './ac-resistance.ts'
export { barrelPerimeter_m, coreLimit_m, postDistance_m, turnLength_m } from './barrel.ts'
export { layOut, tightFill, turnsPerLayer } from './lay-out.ts'
export { type LeakageEstimate, leakageClosedForm } from './leakage.ts'
export { wirePositions } from './positions.ts'
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
