import { memo, useEffect, useMemo } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { desk } from '../../state/desk.ts'
import { createStore, useStore } from '../../state/store.ts'
import { answersStrings } from '../../strings/answers.ts'
import { warmUp } from './answer-pool.ts'
import { AnswersBody } from './answers-body.tsx'
import './answers.css'
import { MendPart } from './mend-part.tsx'
import { RangePart } from './range-part.tsx'
import { SubstitutesPart } from './substitutes-part.tsx'

const words = answersStrings.parts

const parts = ['range', 'mend', 'substitutes', 'others'] as const
type Part = (typeof parts)[number]
const openPart = createStore<Part>('range')

/** What else can be done with this supply and this drawer. */
export const SupplyAnswers = memo(
  ({ evaluation, limits }: { evaluation: Evaluation; limits: readonly Limit[] }) => {
    useEffect(warmUp, [])
    const { supply } = evaluation.design
    const drawer = useStore(desk, (d) => d.drawer?.history.value ?? null)
    const part = useStore(openPart, (p) => p)
    const question = useMemo(
      () => (drawer ? { need: supply.need, drawer, buy: false } : null),
      [supply.need, drawer],
    )
    const holds = limits.every((limit) => limit.holds)
    return (
      <div className="answers">
        <h2 className="unseen">{answersStrings.short}</h2>
        <nav className="answers-parts" aria-label={words.label}>
          {parts.map((name) => (
            <button
              key={name}
              type="button"
              aria-current={name === part ? 'page' : undefined}
              onClick={() => openPart.set(() => name)}
            >
              {words[name]}
            </button>
          ))}
        </nav>
        {drawer !== null && part === 'range' && <RangePart supply={supply} drawer={drawer} />}
        {drawer !== null && part === 'mend' && <MendPart supply={supply} drawer={drawer} holds={holds} />}
        {drawer !== null && part === 'substitutes' && <SubstitutesPart supply={supply} drawer={drawer} />}
        {part === 'others' && (
          <section>
            <h3>{answersStrings.others.title}</h3>
            <AnswersBody question={question} />
          </section>
        )}
      </div>
    )
  },
)
