import type { Assessment } from '../../engine/limits/assess.ts'
import type { Paper } from '../../engine/papers/document.ts'
import { type PaperName, paperOf } from '../../engine/papers/index.ts'
import type { Drawer } from '../../engine/parts/part.ts'
import { schematic } from '../schematic/schematic.ts'
import { drawingStyle } from '../style.ts'
import { connectionParts, formerModel } from '../supply/former-model.ts'
import { printedSchematic } from '../supply/printed-schematic.ts'
import { sectionModel } from '../supply/section-model.ts'
import { el, type SvgNode, toMarkup } from '../svg/node.ts'
import { windingConnections } from '../winding/connections.ts'
import { formerView } from '../winding/former.ts'
import { type SectionModel, windingSection } from '../winding/section.ts'
import type { Figures } from './blocks.ts'
import { paperNode } from './html.ts'
import { paperStyle } from './style.ts'

/** The section with the numbers of its steps in place of those of its layers, which the sheet does not name. */
function numbered(model: SectionModel): SectionModel {
  let step = 0
  return {
    ...model,
    bands: model.bands.map(({ layer: _, ...band }) =>
      (band.kind === 'wire' || band.kind === 'foil') && band.callout !== ''
        ? { ...band, callout: `${++step}  ${band.callout}` }
        : band,
    ),
  }
}

/** Every drawing that a paper may hold, from one judged supply. */
export function paperFigures({ evaluation, limits }: Assessment): Figures {
  const { transformer } = evaluation.design
  const { layout } = transformer.coil
  const former = formerModel(evaluation.design)
  return {
    'winding-section': windingSection(
      numbered(
        sectionModel(layout, { place: transformer.gapPlace, length_m: transformer.gap_m }, 'Winding section'),
      ),
    ),
    'winding-connections': windingConnections(connectionParts(layout.sections)),
    'former-above': formerView(former, 'above'),
    'former-pins': formerView(former, 'pins'),
    schematic: schematic(printedSchematic(evaluation, limits)),
  }
}

/** A paper that was made elsewhere, set with the drawings of the supply. */
export const pageOf = (paper: Paper, assessment: Assessment): SvgNode =>
  paperNode(paper, paperFigures(assessment))

/** One paper of a supply as a page element, ready for the screen or for `paperDocument`. */
export const paperPage = (assessment: Assessment, name: PaperName, drawer: Drawer | null): SvgNode =>
  pageOf(paperOf(name, assessment, drawer), assessment)

/** Nothing may run, load or leave: not even from a record that somebody else has written. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"

/** Pages as one HTML document that prints by itself: no network, no script. */
export function paperDocument(title: string, pages: readonly SvgNode[]): string {
  const head = [
    el('meta', { charset: 'utf-8' }),
    el('meta', { 'http-equiv': 'Content-Security-Policy', content: policy }),
    el('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    el('title', {}, title),
  ]
  return [
    '<!doctype html>',
    '<html lang="en">',
    `<head>${head.map(toMarkup).join('')}<style>${drawingStyle}${paperStyle}</style></head>`,
    `<body>${pages.map(toMarkup).join('\n')}</body>`,
    '</html>',
    '',
  ].join('\n')
}
