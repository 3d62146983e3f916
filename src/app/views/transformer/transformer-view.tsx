import { memo, useCallback, useDeferredValue, useMemo, useState } from 'react'
import { fieldStyle } from '../../../drawing/field/style.ts'
import type { StackItem } from '../../../engine/supply/build.ts'
import { conditionById } from '../../../engine/supply/condition.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { adoptStyle } from '../../controls/style.ts'
import { setting } from '../../fields/check.ts'
import { assessmentOf } from '../../state/assessment.ts'
import { editSupply } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import { ConditionPlate, conditionStore } from '../bench/condition-plate.tsx'
import { FormerViews } from '../bench/winding-view.tsx'
import { NumberOf } from '../work/supply-fields.tsx'
import { BenchSheet } from './bench-sheet.tsx'
import { CompareFigures } from './compare-figures.tsx'
import { ConductorPanel } from './conductor-panel.tsx'
import { GapPanel } from './gap-panel.tsx'
import { InductancePanel } from './inductance-panel.tsx'
import { OrderPanel } from './order-panel.tsx'
import { OwnCorePanel } from './own-core.tsx'
import { GapLossPanel, PairsPanel, ResistancePanel } from './pairs-panel.tsx'
import { showTransformerPart, transformerParts, useTransformerPart } from './part-store.ts'
import './transformer.css'
import { buildStrings } from '../../strings/build.ts'
import { TurnsPanel } from './turns-panel.tsx'
import { type Fields, useFields } from './use-fields.ts'
import { WindowPanel } from './window-panel.tsx'

const words = transformerStrings
const stackPath = ['build', 'transformer', 'stack']

type Stack = readonly StackItem[]

const withStack = (supply: Supply, stack: Stack): Supply => ({
  ...supply,
  build: { ...supply.build, transformer: { ...supply.build.transformer, stack: [...stack] } },
})

/** Margins, wires in hand and splitting, where their effect is seen. */
const CoilFields = ({ evaluation }: { evaluation: Evaluation }) => {
  const { design } = evaluation
  const { supply } = design
  const t = design.transformer
  const { labels } = buildStrings
  const field = (label: keyof typeof labels, path: string, unit: string, chosen: number) => (
    <NumberOf
      supply={supply}
      design={design}
      path={['build', 'transformer', path]}
      label={labels[label]}
      unit={unit}
      whole={unit === ''}
      chosen={() => chosen}
    />
  )
  return (
    <div className="coil-fields">
      {field('margin_m', 'margin_m', 'm', t.margin_m)}
      {field('primaryInHand', 'primaryInHand', '', t.primaryInHand)}
      {field('secondaryInHand', 'secondaryInHand', '', t.secondaryInHand)}
      {field('biasInHand', 'biasInHand', '', t.biasInHand)}
    </div>
  )
}

const Solving = ({ fields }: { fields: Fields }) => (
  <span className="solving" data-state={fields.complete ? 'done' : 'busy'}>
    {fields.complete ? words.solved : words.solving}
  </span>
)

/** The coil as wound: section, field and heat; the order of layers and what it changes. */
const Wound = ({
  evaluation,
  before,
  fields,
  stack,
  preview,
  commit,
  forget,
}: {
  evaluation: Evaluation
  before: Evaluation
  fields: Fields
  stack: Stack
  preview: (stack: Stack | null) => void
  commit: (stack: Stack | null, what: string) => void
  forget: () => void
}) => {
  const condition = useStore(conditionStore, (c) => c)
  // Drawings and tables follow a moment after the order and its figures.
  const design = useDeferredValue(evaluation.design)
  const slow = useDeferredValue(fields)
  return (
    <>
      <WindowPanel design={design} fields={slow} />
      <div className="order-and-change">
        <div>
          <OrderPanel
            design={evaluation.design}
            stack={stack}
            preview={preview}
            commit={commit}
            chosen={before.design.supply.build.transformer.stack === null && design.chosen.stack}
          />
          <CoilFields evaluation={evaluation} />
        </div>
        <CompareFigures
          evaluation={evaluation}
          before={before}
          condition={condition}
          fields={fields}
          forget={forget}
        />
      </div>
      <GapLossPanel fields={slow} />
      <PairsPanel design={design} fields={slow} />
      <ResistancePanel fields={slow} />
      <FormerViews design={design} />
    </>
  )
}

/** The transformer: as wound, its gap and inductance, its wire, its readings, and a core without a name. */
export const TransformerView = memo(({ evaluation }: { evaluation: Evaluation }) => {
  adoptStyle(fieldStyle)
  const part = useTransformerPart()
  const condition = useStore(conditionStore, (c) => c)
  const { supply } = evaluation.design
  // An order that is tried on one supply; it lasts until the evaluation of the next one comes, so that nothing jumps back.
  const [tryOut, setTryOut] = useState<{ readonly stack: Stack; readonly of: Supply } | null>(null)
  const dragged = tryOut?.of === supply ? tryOut.stack : null
  const preview = useCallback((stack: Stack | null) => setTryOut(stack && { stack, of: supply }), [supply])
  const [before, setBefore] = useState(evaluation)
  const tried = useMemo(() => {
    if (dragged === null) return null
    const result = assessmentOf(withStack(supply, dragged))
    return result.ok ? result.value.evaluation : null
  }, [dragged, supply])
  const shown = tried ?? evaluation
  const fields = useFields(shown.design.supply, condition)
  const commit = useCallback(
    (stack: Stack | null, what: string) => {
      setBefore(evaluation)
      editSupply(supply.id, {
        label: what,
        key: null,
        changes: setting(supply, [[stackPath, stack]]),
      })
      preview(stack)
    },
    [evaluation, preview, supply],
  )
  return (
    <div className="transformer winding">
      <nav className="parts" aria-label={words.partsLabel}>
        {transformerParts.map((name) => (
          <button
            key={name}
            type="button"
            aria-current={name === part ? 'page' : undefined}
            onClick={() => showTransformerPart(name)}
          >
            {words.parts[name]}
          </button>
        ))}
      </nav>
      {(part === 'wound' || part === 'conductor') && (
        <details className="transformer-where">
          <summary>
            <span>{words.where(conditionById.get(condition)?.label ?? '')}</span>
            <Solving fields={fields} />
          </summary>
          <ConditionPlate />
        </details>
      )}
      {fields.problems.length > 0 && part !== 'inductance' && part !== 'own-core' && (
        <ul className="problem" role="alert">
          {fields.problems.map((problem) => (
            <li key={problem.message}>{problem.message}</li>
          ))}
        </ul>
      )}
      {part === 'wound' && (
        <Wound
          evaluation={shown}
          before={before}
          fields={fields}
          stack={dragged ?? shown.design.transformer.stack}
          preview={preview}
          commit={commit}
          forget={() => setBefore(evaluation)}
        />
      )}
      {part === 'inductance' && (
        <>
          <GapPanel evaluation={evaluation} />
          <TurnsPanel evaluation={evaluation} />
          <InductancePanel evaluation={evaluation} />
        </>
      )}
      {part === 'conductor' && <ConductorPanel fields={fields} />}
      {part === 'measured' && <BenchSheet evaluation={evaluation} fields={fields} />}
      {part === 'own-core' && <OwnCorePanel design={evaluation.design} />}
    </div>
  )
})
