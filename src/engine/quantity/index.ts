export { shifted } from './decimal.ts'
export { type DividerPair, dividerPairs } from './divider.ts'
export {
  type ESeries,
  seriesAbove,
  seriesBelow,
  seriesBetween,
  seriesNearest,
  seriesNumbers,
} from './e-series.ts'
export { formatQuantity, formatRange, shownUnit } from './format.ts'
export {
  parseMains,
  parseQuantity,
  parseRange,
  type QuantityProblem,
  type QuantityResult,
  type RangeResult,
} from './parse.ts'
export { requireBetween } from './require.ts'
export { type Spread, withTolerance } from './spread.ts'
export { type Unit, unitOfField } from './unit.ts'
export { awgDiameter_m, readGauge, swgDiameter_m } from './wire-gauge.ts'
