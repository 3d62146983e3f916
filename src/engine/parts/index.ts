export { exportDrawerCsv } from './csv-export.ts'
export { type CsvImport, type CsvProblem, importDrawerCsv } from './csv-import.ts'
export {
  addPart,
  compareDrawers,
  type DrawerDifference,
  findEntry,
  freeId,
  type MergedDrawer,
  mergeDrawers,
  partsOfKind,
  removePart,
  replacePart,
} from './drawer.ts'
export * from './part.ts'
export { enamelledOverall_m, enamelledWire, litzOverall_m, litzWire, starterDrawer } from './starter/index.ts'
