import { memo, useMemo } from 'react'
import { type Judgement, judge } from '../../../engine/bench/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { show } from '../../fields/show.ts'
import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { firstLightStrings as words } from '../../strings/first-light.ts'
import { sentence } from '../transformer/sentence.ts'
import './first-light.css'
import { FinderPart } from './finder-part.tsx'
import { LogPart } from './log-part.tsx'
import { NoisePart } from './noise-part.tsx'
import { firstLightParts, showFirstLightPart, useFirstLightPart } from './part-store.ts'
import { PlanPart } from './plan-part.tsx'
import { SetUp } from './set-up.tsx'
import { useAtHand, usePlan } from './use-plan.ts'
import { valueWords } from './words.ts'

/** Readings that are out of line, those that say stop first and loudest. */
const Flags = ({ judgement, link }: { judgement: Judgement; link: boolean }) => {
  const { flags } = judgement
  if (flags.length === 0) return null
  const stops = flags.filter((f) => f.standing === 'stop')
  const live = stops.some((f) => f.check.live)
  return (
    <section className="fl-flags" data-stop={stops.length > 0 || undefined} role="status">
      {stops.length > 0 && (
        <>
          <p className="fl-off">{live ? words.stop : words.noPower}</p>
          <ul>
            {stops.map(({ check, entry, suspect }) => (
              <li key={check.id}>
                <b>
                  {check.what}: {entry && valueWords(check, entry)}
                </b>{' '}
                {suspect}
              </li>
            ))}
          </ul>
        </>
      )}
      <p>
        {words.flags(flags.length)}.{' '}
        {link && (
          <button type="button" className="plain" onClick={() => showFirstLightPart('finder')}>
            {words.toFinder}
          </button>
        )}
      </p>
    </section>
  )
}

/** Says first and loudest that no power may come to this transformer. */
const Refusal = ({ reasons }: { reasons: readonly string[] }) =>
  reasons.length > 0 && (
    <section className="fl-flags" data-stop role="alert">
      <p className="fl-off">{words.refused}</p>
      <p>{words.refusedWhy}</p>
      <ul>
        {reasons.map((reason) => (
          <li key={reason}>{sentence(reason)}</li>
        ))}
      </ul>
    </section>
  )

const goTo = (check: string): void => {
  showFirstLightPart('plan')
  requestAnimationFrame(() => {
    const card = document.getElementById(`check-${check}`)
    card?.scrollIntoView({ block: 'center' })
    card?.querySelector<HTMLElement>('.value, .fl-answer')?.focus({ preventScroll: true })
  })
}

/** The first power-up of this very supply, its fault finder and its log. */
export const FirstLightView = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const part = useFirstLightPart()
  const planned = evaluation.design.supply
  // Readings and ticks count at once; the evaluation follows a moment later.
  const supply = useStore(desk, (d) => d.supplies[planned.id]?.history.value) ?? planned
  const atHand = useAtHand(supply)
  const { answer, problem, fresh } = usePlan(supply, atHand)
  const judgement = useMemo(
    () => (answer ? judge(answer.plan, supply.bench.log, supply.bench.ticked) : null),
    [answer, supply.bench.log, supply.bench.ticked],
  )
  const done = judgement?.stages.filter((s) => s.state === 'done').length ?? 0
  return (
    <div className="first-light">
      <h2 className="unseen">{words.title}</h2>
      <nav className="parts" aria-label={words.partsLabel}>
        {firstLightParts.map((name) => (
          <button
            key={name}
            type="button"
            aria-current={name === part ? 'page' : undefined}
            onClick={() => showFirstLightPart(name)}
          >
            {words.parts[name]}
          </button>
        ))}
      </nav>
      {problem && <p className="problem">{words.failed(problem)}</p>}
      {!answer && !problem && <p role="status">{words.making}</p>}
      {answer && judgement && (
        <>
          {part !== 'noise' && <Refusal reasons={answer.plan.doNotPower} />}
          {part !== 'noise' && <Flags judgement={judgement} link={part !== 'finder'} />}
          {part === 'plan' && (
            <>
              <div className="fl-head">
                <p>
                  <b>{words.progress(done, answer.plan.stages.length)}</b>{' '}
                  {words.startInput(show(answer.plan.startInput_V, 'V'))}{' '}
                  {!fresh && <span role="status">{words.remaking}</span>}
                </p>
                {judgement.next ? (
                  <p>
                    {words.next}: {judgement.next.what}{' '}
                    <button type="button" className="plain" onClick={() => goTo(judgement.next!.id)}>
                      {words.goOn}
                    </button>
                  </p>
                ) : (
                  <p>{words.allRead}</p>
                )}
              </div>
              <section className="fl-cautions">
                <h3>{words.cautions}</h3>
                <ul>
                  {answer.plan.cautions.map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ul>
              </section>
              <SetUp supply={supply} atHand={atHand} plan={answer.plan} />
              <PlanPart evaluation={evaluation} supply={supply} answer={answer} judgement={judgement} />
            </>
          )}
          {part === 'finder' && <FinderPart supply={supply} plan={answer.plan} judgement={judgement} />}
          {part === 'noise' && <NoisePart />}
          {part === 'log' && <LogPart supply={supply} judgement={judgement} />}
        </>
      )}
    </div>
  )
})
