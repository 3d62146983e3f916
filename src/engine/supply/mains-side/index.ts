export { emissionOf, type OutputEarth } from './emission-of.ts'
export {
  type BleedAnswer,
  bleedOf,
  bulkLife,
  fuseUse,
  harmonicsOf,
  plugIns,
  prospective_A,
  surge_V,
  surgeOf,
} from './parts.ts'
export { atInput, type MainsSweep, sweepMains } from './sweep.ts'
