import { memo, useMemo, useState } from 'react'
import {
  type BenchPaperName,
  benchPaperNames,
  benchPaperOf,
  benchPapersOf,
} from '../../../drawing/paper/bench-papers.ts'
import { pageOf, paperPage } from '../../../drawing/paper/pages.ts'
import { paperStyle } from '../../../drawing/paper/style.ts'
import { recordHtml } from '../../../drawing/record/record-html.ts'
import type { SvgNode } from '../../../drawing/svg/node.ts'
import type { Assessment } from '../../../engine/limits/assess.ts'
import type { Limit } from '../../../engine/limits/limit.ts'
import { type PaperName, paperNames } from '../../../engine/papers/index.ts'
import { partsListCsv } from '../../../engine/papers/parts-list.ts'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { Icon } from '../../controls/icon.tsx'
import { Sideways } from '../../controls/sideways.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'
import { saveFile } from '../shelf/files.ts'

const words = benchStrings.papers

const sheetNames = [...paperNames, ...benchPaperNames] as const
type SheetName = (typeof sheetNames)[number]

const isBench = (sheet: SheetName): sheet is BenchPaperName =>
  (benchPaperNames as readonly string[]).includes(sheet)

const sheetPage = (sheet: SheetName, assessment: Assessment, drawer: Drawer | null): SvgNode =>
  isBench(sheet)
    ? pageOf(benchPaperOf(sheet, assessment, drawer), assessment)
    : paperPage(assessment, sheet as PaperName, drawer)

const saveRecord = (assessment: Assessment, drawer: Drawer | null): void => {
  const { id } = assessment.evaluation.design.supply
  saveFile(
    `${id}.record.html`,
    recordHtml(assessment, drawer, benchPapersOf(assessment, drawer)),
    'text/html',
  )
}

/** The papers for the bench, as they print: one at a time on the screen and on the printer. */
export const PapersView = memo(
  ({ evaluation, limits }: { evaluation: Evaluation; limits: readonly Limit[] }) => {
    adoptStyle(paperStyle)
    const [sheet, setSheet] = useState<SheetName>('winding-sheet')
    const drawer = useStore(desk, (d) => d.drawer)?.history.value ?? null
    const assessment = useMemo((): Assessment | null => {
      const first = limits[0]
      return first === undefined ? null : { evaluation, limits, givesFirst: first, holds: first.holds }
    }, [evaluation, limits])
    const node = useMemo(
      () => assessment && sheetPage(sheet, assessment, drawer),
      [assessment, drawer, sheet],
    )
    return (
      <div className="papers">
        <div className="papers-tools">
          <fieldset aria-label={words.label}>
            {sheetNames.map((name) => (
              <button
                key={name}
                type="button"
                className="plate-cell"
                aria-pressed={name === sheet}
                onClick={() => setSheet(name)}
              >
                {words.sheets[name]}
              </button>
            ))}
          </fieldset>
          <button type="button" className="plain" onClick={() => print()}>
            <Icon name="print" /> {words.print}
          </button>
          {assessment && (
            <button type="button" className="plain" onClick={() => saveRecord(assessment, drawer)}>
              <Icon name="file" /> {words.record}
            </button>
          )}
          {sheet === 'parts-list' && (
            <button
              type="button"
              className="plain"
              onClick={() =>
                saveFile(
                  `${evaluation.design.supply.id}.parts.csv`,
                  partsListCsv(evaluation, limits, drawer),
                  'text/csv',
                )
              }
            >
              <Icon name="file" /> {words.csv}
            </button>
          )}
        </div>
        {node && (
          <Sideways className="papers-scroll" label={words.sheets[sheet]}>
            <Drawing node={node} />
          </Sideways>
        )}
      </div>
    )
  },
)
