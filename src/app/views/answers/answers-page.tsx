import { useEffect, useMemo, useState } from 'react'
import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { answersStrings as words } from '../../strings/answers.ts'
import { strings } from '../../strings/common.ts'
import { warmUp } from './answer-pool.ts'
import { AnswersBody, openAsSupply } from './answers-body.tsx'
import './answers.css'
import { MostPowerPart } from './most-power.tsx'
import { NeedForm, needTyped, typedNeed } from './need-form.tsx'

/** What can be built for a need with the drawer at hand. */
export const AnswersPage = () => {
  useEffect(warmUp, [])
  const typed = useStore(typedNeed, (t) => t)
  const drawer = useStore(desk, (d) => d.drawer?.history.value ?? null)
  const [buy, setBuy] = useState(false)
  const question = useMemo(() => {
    const need = needTyped(typed)
    return 'source' in need && drawer !== null ? { need, drawer, buy } : null
  }, [typed, drawer, buy])
  return (
    <div className="page answers">
      <div className="page-head">
        <h1>{words.title}</h1>
        <p className="lead">{words.lead}</p>
      </div>
      <NeedForm />
      <label className="answers-buy">
        <input type="checkbox" checked={buy} onChange={(event) => setBuy(event.target.checked)} /> {words.buy}
        <small>{words.buyMeans}</small>
      </label>
      {question === null && drawer !== null && <p className="answers-waits">{words.wrong}</p>}
      <AnswersBody question={question} />
      {question !== null && <MostPowerPart question={question} open={(s) => void openAsSupply(s)} />}
      <p className="caution">{strings.caution}</p>
    </div>
  )
}
