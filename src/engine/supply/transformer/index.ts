export { type CoilFacts, coilFacts } from './coil-facts.ts'
export type { CopperHeat, LayerHeat } from './copper.ts'
export { type WindingCurrents, waveHarmonics } from './currents.ts'
export { type FilmPlan, type GapPlan, type GapWay, planGap, type SpacerFilm } from './gap-plan.ts'
export { wallGaps } from './gaps.ts'
export {
  type InductanceCurve,
  inductanceAgainstCurrent,
  inductanceAgainstGap,
  woundCoreAt,
} from './inductance-curves.ts'
export type { Inductances } from './inductances.ts'
export { type Moment, momentMaps, moments } from './maps.ts'
export { type MeasuredTransformer, readTransformer, type SenseVerdict } from './measured.ts'
export { type ConductorChoice, conductorChoices } from './optimum.ts'
export {
  changeWinding,
  joinWinding,
  moveItem,
  partsBeside,
  placedItems,
  setTape,
  splitWinding,
} from './order.ts'
export { type Both, type SolvedTransformer, solveTransformer, type TransformerAnswer } from './solve.ts'
