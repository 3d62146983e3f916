/** The library: what a program needs to open, read, change and write supplies, and the general rooms by name. */

export * as circuit from './circuit/index.ts'
export {
  drawerText,
  largestFile_B,
  readDrawer,
  readSupply,
  supplyText,
} from './file/file.ts'
export { type FileProblem, type FileResult, problemSentence } from './file/problem.ts'
export { fileSchemas } from './file/schema.ts'
export * as heat from './heat/index.ts'
export * as insulation from './insulation/index.ts'
export * as loop from './loop/index.ts'
export * as core from './magnetics/core/index.ts'
export * as stack from './magnetics/stack/index.ts'
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
export { type Need, need } from './supply/need.ts'
export type { Problem, Result } from './supply/result.ts'
export { type Supply, supply } from './supply/supply.ts'
