import { useMemo } from 'react'
import type { SearchState, WhyNot } from '../../../engine/search/index.ts'
import { answersStrings as words } from '../../strings/answers.ts'
import type { Question } from './messages.ts'
import { useAsk } from './use-ask.ts'

/** How near to holding; what cannot be put together at all comes last. */
const nearness = ({ limit }: WhyNot): number => limit?.margin ?? Number.NEGATIVE_INFINITY

const Reasons = ({ title, of, reasons }: { title: string; of: WhyNot['of']; reasons: readonly WhyNot[] }) => {
  const mine = reasons.filter((reason) => reason.of === of).sort((a, b) => nearness(b) - nearness(a))
  if (mine.length === 0) return null
  return (
    <>
      <h3>{title}</h3>
      <ul className="why-list" data-long>
        {mine.map((reason) => {
          const { name, sentence } = reason
          return (
            <li key={`${reason.id} ${sentence}`}>
              <b>{name}</b> <span>{sentence.slice(name.length + 2)}</span>
            </li>
          )
        })}
      </ul>
    </>
  )
}

/** For every core and chip without an answer: what stops it, and by how much. */
export const WhyNotPart = ({
  question,
  state,
  open,
}: {
  question: Question
  state: SearchState
  /** Unfolded from the start, where there is no answer to look at. */
  open: boolean
}) => {
  const job = useMemo(() => ({ kind: 'why', question, state }) as const, [question, state])
  const reached = useAsk<'why'>(job)
  const reasons = reached.is === 'here' && reached.value.ok ? reached.value.value : null
  return (
    <details className="answers-fold" open={open}>
      <summary>
        {words.why}
        {reasons && ` (${reasons.length})`}
      </summary>
      <p className="lead">{words.whyLead}</p>
      {reached.is === 'working' && <p className="answers-waits">{words.whyWorking}</p>}
      {reached.is === 'failed' && <p className="answers-wrong">{reached.message}</p>}
      {reasons && (
        <>
          <Reasons title={words.cores} of="core" reasons={reasons} />
          <Reasons title={words.switchers} of="switcher" reasons={reasons} />
        </>
      )}
    </details>
  )
}
