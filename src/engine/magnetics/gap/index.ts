export { type GapWarning, gapWarnings } from './advice.ts'
export { factorBand, gapFromMeasurement } from './band.ts'
export { type FilmAtHand, type FilmStack, nearestFilmStack } from './films.ts'
export { coreReluctance, gapPermeance, inductanceFactor, rootFluxRatio } from './inductance.ts'
export {
  type GapGeometry,
  type GapModel,
  type GapPlace,
  gapGeometry,
  gapModel,
  gapRange,
  mu0,
} from './model.ts'
export { plainPostGap, plainSpacer } from './plain.ts'
export { gapForFactor, gapForInductance } from './solve.ts'
