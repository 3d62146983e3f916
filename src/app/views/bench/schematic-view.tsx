import { memo, type ReactNode, useMemo } from 'react'
import { schematic } from '../../../drawing/schematic/schematic.ts'
import { schematicModel } from '../../../drawing/supply/schematic-model.ts'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { Sideways } from '../../controls/sideways.tsx'
import { KeyFigures } from './key-figures.tsx'

/** The circuit drawn from the data, with live values; each part goes to what is known about it. */
export const SchematicView = memo(
  ({
    evaluation,
    limits,
    pick,
    children,
  }: {
    evaluation: Evaluation
    limits: readonly Limit[]
    pick: (spot: string) => void
    children: ReactNode
  }) => {
    const node = useMemo(() => schematic(schematicModel(evaluation, limits)), [evaluation, limits])
    return (
      <>
        <Sideways className="sheet-scroll" label={String(node.attributes['aria-label'])}>
          <Drawing node={node} pick={pick} />
        </Sideways>
        {children}
        <KeyFigures evaluation={evaluation} />
      </>
    )
  },
)
