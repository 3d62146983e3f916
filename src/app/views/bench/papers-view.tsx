import { memo, useMemo, useState } from 'react'
import { paperNode } from '../../../drawing/paper/html.ts'
import { paperStyle } from '../../../drawing/paper/style.ts'
import { schematic } from '../../../drawing/schematic/schematic.ts'
import { schematicModel } from '../../../drawing/supply/schematic-model.ts'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Paper } from '../../../engine/papers/document.ts'
import { partsList, partsListCsv } from '../../../engine/papers/parts-list.ts'
import { windingSheet } from '../../../engine/papers/winding-sheet.ts'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { Icon } from '../../controls/icon.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'
import { saveFile } from '../shelf/files.ts'
import { windingFigures } from './winding-view.tsx'

const words = benchStrings.papers

interface Source {
  readonly evaluation: Evaluation
  readonly limits: readonly Limit[]
  readonly drawer: Drawer | null
}

const sheets = {
  winding: ({ evaluation }: Source): Paper => windingSheet(evaluation),
  parts: ({ evaluation, limits, drawer }: Source): Paper => partsList(evaluation, limits, drawer),
}
type SheetName = keyof typeof sheets

/** The papers for the bench, as they print: one at a time on the screen and on the printer. */
export const PapersView = memo(
  ({ evaluation, limits }: { evaluation: Evaluation; limits: readonly Limit[] }) => {
    adoptStyle(paperStyle)
    const [sheet, setSheet] = useState<SheetName>('winding')
    const drawer = useStore(desk, (d) => d.drawer)?.history.value ?? null
    const node = useMemo(() => {
      const figures = windingFigures(evaluation.design)
      return paperNode(sheets[sheet]({ evaluation, limits, drawer }), {
        'winding-section': figures.section,
        'former-above': figures.above,
        'former-pins': figures.pins,
        schematic: schematic(schematicModel(evaluation, limits)),
      })
    }, [evaluation, limits, drawer, sheet])
    return (
      <div className="papers">
        <div className="papers-tools">
          {(Object.keys(sheets) as SheetName[]).map((name) => (
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
          <button type="button" className="plain" onClick={() => print()}>
            <Icon name="print" /> {words.print}
          </button>
          {sheet === 'parts' && (
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
        <Drawing node={node} />
      </div>
    )
  },
)
