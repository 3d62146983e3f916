/** Drawings from data: SVG that the page shows and paper prints, and the papers themselves as documents. */

export { type RecordResult, readRecord } from '../engine/file/record.ts'
export { type PaperName, paperNames, paperOf } from '../engine/papers/index.ts'
export { type RecordBlank, recordBlanks } from '../engine/papers/record-blanks.ts'
export { pageOf, paperDocument, paperFigures, paperPage } from './paper/pages.ts'
export { paperStyle } from './paper/style.ts'
export { recordHtml } from './record/record-html.ts'
export type { SchematicModel, Spot, Standing } from './schematic/model.ts'
export { schematic } from './schematic/schematic.ts'
export { drawingStyle } from './style.ts'
export { type SvgNode, toMarkup } from './svg/node.ts'
export { type FormerModel, formerView } from './winding/former.ts'
export { type SectionModel, windingSection } from './winding/section.ts'
