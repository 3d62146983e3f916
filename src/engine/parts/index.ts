export { exportDrawerCsv } from './csv-export.ts'
export { importDrawerCsv } from './csv-import.ts'
export {
  addPart,
  compareDrawers,
  findEntry,
  freeId,
  mergeDrawers,
  partsOfKind,
  removePart,
  replacePart,
} from './drawer.ts'
export * from './part.ts'
export { enamelledOverall_m, enamelledWire, litzOverall_m, litzWire, starterDrawer } from './starter/index.ts'
