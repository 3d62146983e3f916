export {
  conductorCount,
  conductorSize_m,
  copperArea_m2,
  dcResistance_ohm_per_m,
  litzBundle_m,
  wireHeight_m,
  wireInsulation_m,
  wireWidth_m,
} from './conductor.ts'
export {
  copperResistanceRatio,
  copperResistivity_ohm_m,
  copperResistivity20_ohm_m,
  vacuumPermeability_H_per_m,
} from './copper.ts'
export { dowellFactor, layerThickness_m, sheetProximityFactor, sheetSkinFactor } from './dowell.ts'
export { enamelledOverall_m } from './enamel.ts'
export { parseWireSize, type WireSizeResult } from './gauge.ts'
export { type Curve, foilThicknessCurve, leastOn, strandDiameterCurve } from './optimum.ts'
export { type RoundWireResponse, roundWireResponse } from './round-wire.ts'
export { copperSkinDepth_m, skinDepth_m } from './skin.ts'
