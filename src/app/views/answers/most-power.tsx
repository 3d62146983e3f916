import { useMemo, useState } from 'react'
import type { Drawer, Part } from '../../../engine/parts/part.ts'
import { show } from '../../fields/show.ts'
import { answersStrings } from '../../strings/answers.ts'
import { sentence } from '../transformer/sentence.ts'
import { openAsSupply } from './answers-body.tsx'
import type { Question, Replies } from './messages.ts'
import { ChoiceField } from './text-field.tsx'
import { useAsk } from './use-ask.ts'

const words = answersStrings.power

const atHand = (drawer: Drawer, kind: Part['kind']) =>
  drawer.entries.flatMap(({ part, quantity }) =>
    part.kind === kind && quantity !== 0 ? [[part.id, part.name] as const] : [],
  )

const Found = ({ answer, output_V }: { answer: Replies['power']; output_V: number }) => {
  if (!answer.ok) return <p className="answers-wrong">{sentence(answer.problems[0]?.message ?? '')}</p>
  const { output_A, power_W, limit, supply } = answer.value
  return (
    <>
      <p className="answers-verdict">
        {words.found(show(output_V, 'V'), show(output_A, 'A'), show(power_W, 'W'))}
      </p>
      {limit && <p>{words.stops(limit.title.toLowerCase())}</p>}
      <button type="button" className="plain" onClick={() => void openAsSupply(supply)}>
        {words.open}
      </button>
    </>
  )
}

/** The most power from one core and one chip of the drawer, and what stops more. */
export const MostPowerPart = ({
  question,
  first,
}: {
  question: Question
  /** What is chosen at the start, by id. */
  first?: { readonly core: string; readonly switcher: string }
}) => {
  const { drawer, need } = question
  const cores = useMemo(() => atHand(drawer, 'core'), [drawer])
  const switchers = useMemo(() => atHand(drawer, 'switcher'), [drawer])
  const among = (all: typeof cores, id: string | undefined): string =>
    all.find(([known]) => known === id)?.[0] ?? all[0]?.[0] ?? ''
  const [core, setCore] = useState(among(cores, first?.core))
  const [switcher, setSwitcher] = useState(among(switchers, first?.switcher))
  const [asked, setAsked] = useState<{ core: string; switcher: string; question: Question } | null>(null)
  const job = useMemo(() => (asked ? ({ kind: 'power', ...asked } as const) : null), [asked])
  const reached = useAsk<'power'>(job)
  const current = asked?.core === core && asked.switcher === switcher && asked.question === question
  return (
    <section className="most-power">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div className="answers-fields">
        <ChoiceField label={words.core} options={cores} value={core} choose={setCore} />
        <ChoiceField label={words.switcher} options={switchers} value={switcher} choose={setSwitcher} />
        <button
          type="button"
          className="act"
          disabled={core === '' || switcher === ''}
          onClick={() => setAsked({ core, switcher, question })}
        >
          {words.ask}
        </button>
      </div>
      <div role="status" className="retarget-answer">
        {current && reached.is === 'working' && <p className="answers-waits">{words.working}</p>}
        {current && reached.is === 'failed' && <p className="answers-wrong">{sentence(reached.message)}</p>}
        {current && reached.is === 'here' && <Found answer={reached.value} output_V={need.output_V} />}
      </div>
    </section>
  )
}
