import { useEffect, useMemo } from 'react'
import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { answersStrings as words } from '../../strings/answers.ts'
import { strings } from '../../strings/common.ts'
import { UnusableDrawer } from '../drawer/unusable-drawer.tsx'
import { warmUp } from './answer-pool.ts'
import { AnswersBody } from './answers-body.tsx'
import './answers.css'
import { MostPowerPart } from './most-power.tsx'
import { NeedForm, needTyped, seedTyped, typedNeed } from './need-form.tsx'

/** What can be built for a need with the drawer at hand. */
export const AnswersPage = () => {
  useEffect(warmUp, [])
  const typed = useStore(typedNeed, (t) => t)
  const drawer = useStore(desk, (d) => d.drawer?.history.value ?? null)
  const read = useMemo(() => needTyped(typed), [typed])
  const question = useMemo(() => {
    const seed = seedTyped(typed.seed)
    return 'source' in read && seed !== null && drawer !== null
      ? { need: read, drawer, buy: typed.parts === 'buy', effort: typed.effort, seed }
      : null
  }, [read, typed, drawer])
  return (
    <div className="page answers">
      <div className="page-head">
        <h1>{words.title}</h1>
        <p className="lead">{words.lead}</p>
      </div>
      <UnusableDrawer />
      <NeedForm />
      <h2 className="unseen">{words.short}</h2>
      <AnswersBody question={question} />
      {question !== null && <MostPowerPart question={question} />}
      <p className="caution">{strings.caution}</p>
    </div>
  )
}
