/**
 * The library. First the way from a file to an answer; then the general rooms, by name, for programs that want a
 * circuit, a winding or a heat path of their own.
 */

export * as bench from './bench/index.ts'
export * as circuit from './circuit/index.ts'
export { demoSupplies } from './demo/index.ts'
export { drawerText, largestFile_B, readDrawer, readSupply, supplyText } from './file/file.ts'
export { openSupply } from './file/open.ts'
export { type FileProblem, type FileResult, problemSentence } from './file/problem.ts'
export { fileSchemas } from './file/schema.ts'
export * as heat from './heat/index.ts'
export * as insulation from './insulation/index.ts'
export { type Assessment, assess, assessWhole, type Limit, limitIds, limits } from './limits/index.ts'
export * as loop from './loop/index.ts'
export * as choke from './magnetics/choke/index.ts'
export * as core from './magnetics/core/index.ts'
export * as field from './magnetics/field/index.ts'
export * as gap from './magnetics/gap/index.ts'
export * as material from './magnetics/material/index.ts'
export * as stack from './magnetics/stack/index.ts'
export * as unknownCore from './magnetics/unknown-core/index.ts'
export * as wire from './magnetics/wire/index.ts'
export * as mains from './mains/index.ts'
export {
  type Drawer,
  type DrawerEntry,
  drawer,
  type Part,
  type PartKind,
  type PartOf,
  part,
} from './parts/part.ts'
export { starterDrawer } from './parts/starter/index.ts'
export * as quantity from './quantity/index.ts'
export * as search from './search/index.ts'
export { type ProposeOptions, proposeSupply } from './search/propose.ts'
export * as stage from './stage/index.ts'
export { type Condition, type ConditionId, conditions } from './supply/condition.ts'
export type { Design } from './supply/design.ts'
export {
  at,
  type ConditionReadings,
  type Evaluation,
  evaluate,
  greatest,
  least,
  modeInWords,
  type Running,
  resolve,
} from './supply/evaluate.ts'
export * as supplyLoop from './supply/loop/index.ts'
export { type Need, need } from './supply/need.ts'
export {
  type FixedReadingKey,
  type FixedReadings,
  fixedReadingInfo,
  infoOf,
  type ReadingInfo,
  type ReadingKey,
  type Readings,
  readingInfo,
} from './supply/reading.ts'
export { reference, type Spot } from './supply/refs.ts'
export type { Problem, Result } from './supply/result.ts'
export { type Supply, supply } from './supply/supply.ts'
export * as transformer from './supply/transformer/index.ts'
