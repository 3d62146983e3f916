export { type EmissionAnswer, emissionOf, type OutputEarth, outputToEarth_F } from './emission-of.ts'
export {
  type BleedAnswer,
  bleedOf,
  bulkLife,
  fuseUse,
  harmonicsOf,
  type PlugIn,
  plugIns,
  prospective_A,
  surge_V,
  surgeOf,
} from './parts.ts'
export { atInput, type MainsSweep, type SweepPoint, sweepMains } from './sweep.ts'
