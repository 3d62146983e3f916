import { useId, useMemo, useState } from 'react'
import type { Drawer, Part } from '../../../engine/parts/part.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { show } from '../../fields/show.ts'
import { answersStrings } from '../../strings/answers.ts'
import type { Question } from './messages.ts'
import { useAsk } from './use-ask.ts'

const words = answersStrings.power

const PartChoice = ({
  label,
  parts,
  value,
  choose,
}: {
  label: string
  parts: readonly Part[]
  value: string
  choose: (id: string) => void
}) => {
  const id = useId()
  return (
    <div className="form-field">
      <label htmlFor={id}>{label}</label>
      <select id={id} className="choice" value={value} onChange={(event) => choose(event.target.value)}>
        {parts.map((part) => (
          <option key={part.id} value={part.id}>
            {part.name}
          </option>
        ))}
      </select>
    </div>
  )
}

const atHand = (drawer: Drawer, kind: Part['kind']): Part[] =>
  drawer.entries.flatMap(({ part, quantity }) => (part.kind === kind && quantity !== 0 ? [part] : []))

/** The most power from one core and one chip of the drawer, and what stops more. */
export const MostPowerPart = ({ question, open }: { question: Question; open: (supply: Supply) => void }) => {
  const { drawer, need } = question
  const cores = useMemo(() => atHand(drawer, 'core'), [drawer])
  const switchers = useMemo(() => atHand(drawer, 'switcher'), [drawer])
  const [core, setCore] = useState(cores[0]?.id ?? '')
  const [switcher, setSwitcher] = useState(switchers[0]?.id ?? '')
  const [asked, setAsked] = useState<{ core: string; switcher: string; question: Question } | null>(null)
  const job = useMemo(() => (asked ? ({ kind: 'power', ...asked } as const) : null), [asked])
  const reached = useAsk<'power'>(job)
  const stale =
    asked === null || asked.core !== core || asked.switcher !== switcher || asked.question !== question
  const answer = reached.is === 'here' ? reached.value : null
  return (
    <section className="most-power">
      <h2>{words.title}</h2>
      <div className="answers-fields">
        <PartChoice label={words.core} parts={cores} value={core} choose={setCore} />
        <PartChoice label={words.switcher} parts={switchers} value={switcher} choose={setSwitcher} />
        <button
          type="button"
          className="act"
          disabled={core === '' || switcher === ''}
          onClick={() => setAsked({ core, switcher, question })}
        >
          {words.ask}
        </button>
      </div>
      <div role="status">
        {!stale && reached.is === 'working' && <p className="answers-waits">{words.working}</p>}
        {!stale && reached.is === 'failed' && <p className="problem">{reached.message}</p>}
        {!stale && answer && !answer.ok && <p className="problem">{answer.problems[0]?.message}</p>}
        {!stale && answer?.ok && (
          <>
            <p className="most-found">
              {words.found(
                show(need.output_V, 'V'),
                show(answer.value.output_A, 'A'),
                show(answer.value.power_W, 'W'),
              )}{' '}
              {answer.value.limit && words.stops(answer.value.limit.title.toLowerCase())}
            </p>
            <button type="button" className="plain" onClick={() => open(answer.value.supply)}>
              {words.open}
            </button>
          </>
        )}
      </div>
    </section>
  )
}
