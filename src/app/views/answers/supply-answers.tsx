import { memo, useEffect, useMemo } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { desk } from '../../state/desk.ts'
import { createStore, useStore } from '../../state/store.ts'
import { answersStrings } from '../../strings/answers.ts'
import { warmUp } from './answer-pool.ts'
import { AnswersBody } from './answers-body.tsx'
import './answers.css'
import { FamilyPart } from './family-part.tsx'
import { MendPart } from './mend-part.tsx'
import { plainQuestion } from './messages.ts'
import { MostPowerPart } from './most-power.tsx'
import { RangePart } from './range-part.tsx'
import { SubstitutesPart } from './substitutes-part.tsx'

const words = answersStrings.parts

const parts = ['range', 'mend', 'substitutes', 'power', 'others', 'family'] as const
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
      () => (drawer ? plainQuestion(supply.need, drawer) : null),
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
        {drawer !== null && question !== null && (
          <>
            {part === 'range' && <RangePart supply={supply} drawer={drawer} />}
            {part === 'mend' && <MendPart supply={supply} drawer={drawer} holds={holds} />}
            {part === 'substitutes' && <SubstitutesPart supply={supply} drawer={drawer} />}
            {part === 'power' && <MostPowerPart question={question} first={supply.build.places} />}
            {part === 'family' && <FamilyPart supply={supply} drawer={drawer} />}
            {part === 'others' && (
              <section>
                <h3>{answersStrings.others.title}</h3>
                <AnswersBody question={question} beside={supply} />
              </section>
            )}
          </>
        )}
      </div>
    )
  },
)
