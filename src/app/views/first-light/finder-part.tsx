import { useMemo } from 'react'
import {
  type Check,
  type FaultTable,
  instrumentName,
  type Judgement,
  nextMeasurement,
  type Plan,
  type Ranked,
  type Ranking,
  rank,
} from '../../../engine/bench/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { useStore } from '../../state/store.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { usePlanned } from '../transformer/use-planned.ts'
import { CheckCard, isGood } from './check-card.tsx'
import { leftOut, toggleLeftOut } from './part-store.ts'
import { SymptomChooser } from './symptom-chooser.tsx'
import { useTable } from './use-table.ts'
import { basisWords, chanceWords, evidenceWords, percentWords, traceWords, valueWords } from './words.ts'

const words = firstLightStrings.finder
/** Causes shown at once. */
const shown = 5

const allChecks = (plan: Plan): ReadonlyMap<string, Check> =>
  new Map([...plan.stages.flatMap((s) => s.checks), ...plan.inTrouble].map((c) => [c.id, c]))

const Cause = ({
  cause,
  checks,
  judgement,
  first,
}: {
  cause: Ranked
  checks: ReadonlyMap<string, Check>
  judgement: Judgement
  first: boolean
}) => {
  const { row, chance, evidence } = cause
  return (
    <li className="fl-cause">
      <details open={first || undefined}>
        <summary>
          <span className="fl-cause-title">{row.title}</span>
          <span className="fl-chance">
            <b>{chanceWords(chance)}</b> {percentWords(chance)}
          </span>
          <svg className="bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
            <rect className="bar-full" width="100" height="6" />
            <rect className="bar-part" width={Math.max(0.5, 100 * chance)} height="6" />
          </svg>
        </summary>
        <h5>{words.evidence}</h5>
        {evidence.length === 0 && <p>{words.noEvidence}</p>}
        <ul className="fl-evidence">
          {evidence.slice(0, 8).map(({ check: id, decibans }) => {
            const check = checks.get(id)
            const entry = judgement.checks.find((c) => c.check.id === id)?.entry
            const trace = row.signature[id]
            if (!check) return null
            return (
              <li key={id} data-for={decibans > 0 || undefined}>
                <span>
                  {check.what}: {entry && <b>{valueWords(check, entry)}</b>}
                  {trace && `; ${words.would(traceWords(check, trace))}`}
                </span>{' '}
                <small>
                  {evidenceWords(decibans)}, {words.decibans(decibans.toFixed(0).replace('-', '−'))}
                </small>
              </li>
            )
          })}
        </ul>
        <dl className="fl-facts">
          <div>
            <dt>{words.telling}</dt>
            <dd>{row.telling}</dd>
          </div>
          <div>
            <dt>{words.remedy}</dt>
            <dd>{row.remedy}</dd>
          </div>
          {row.danger && (
            <div className="fl-danger">
              <dt>{words.danger}</dt>
              <dd>{row.danger}</dd>
            </div>
          )}
        </dl>
        <small>{basisWords(row)}</small>
      </details>
    </li>
  )
}

const Next = ({
  supply,
  ranking,
  plan,
  judgement,
}: {
  supply: Supply
  ranking: Ranking
  plan: Plan
  judgement: Judgement
}) => {
  const next = useMemo(
    () => nextMeasurement(ranking, judgement.symptoms, plan),
    [ranking, judgement.symptoms, plan],
  )
  if (next === null) return <p>{words.noNext}</p>
  const { check, outcomes, insteadOf, separation } = next
  const stage = plan.stages.find((s) => s.id === check.stage)
  const locked = judgement.stages.find((s) => s.id === check.stage)?.state === 'locked'
  const judged = judgement.checks.find((c) => c.check.id === check.id)
  return (
    <>
      <p className="lead">
        {words.separates[separation > 0.9 ? 'surely' : separation > 0.6 ? 'well' : 'partly']}
      </p>
      {locked && stage && <p className="fl-locked">{words.lockedStage(stage.title)}</p>}
      {insteadOf && (
        <p className="hint">
          {words.betterOne(
            insteadOf.what,
            insteadOf.chosen.state === 'skipped'
              ? insteadOf.chosen.wouldNeed.map(instrumentName).join(', ')
              : '',
          )}
        </p>
      )}
      <ol className="fl-checks">
        {judged && <CheckCard supply={supply} judged={judged} offer={null} isNext ticked={false} />}
      </ol>
      <table className="reading-table fl-outcomes">
        <caption>{words.outcomes}</caption>
        <tbody>
          {outcomes.map(({ fault, title, trace }) => (
            <tr key={fault}>
              <th scope="row">{title}</th>
              <td>{traceWords(check, trace)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

const Answer = ({
  supply,
  plan,
  judgement,
  table,
}: {
  supply: Supply
  plan: Plan
  judgement: Judgement
  table: FaultTable
}) => {
  const out = useStore(leftOut, (all) => all)
  const counted = useMemo(
    () => judgement.symptoms.filter((s) => !out.has(`${supply.id} ${s.check}`)),
    [judgement, out, supply.id],
  )
  const ranking = useMemo(() => rank(counted, table), [counted, table])
  const checks = useMemo(() => allChecks(plan), [plan])
  if (counted.length === 0) return null
  const causes = ranking.ranked.slice(0, shown)
  return (
    <>
      <div className="fl-ranking" role="status" data-verdict={ranking.verdict}>
        <p className="fl-ranking-verdict">{ranking.text}</p>
      </div>
      <div className="fl-answer-columns">
        <section>
          <h4>{words.causes}</h4>
          <ol className="fl-causes">
            {causes.map((cause, k) => (
              <Cause key={cause.row.id} cause={cause} checks={checks} judgement={judgement} first={k === 0} />
            ))}
          </ol>
          <p className="hint">{words.decibansMean}</p>
        </section>
        <section>
          <h4>{words.next}</h4>
          <Next supply={supply} ranking={ranking} plan={plan} judgement={judgement} />
        </section>
      </div>
    </>
  )
}

/** From readings and symptoms to causes, and to the measurement that tells the leaders apart. */
export const FinderPart = ({
  supply,
  plan,
  judgement,
}: {
  supply: Supply
  plan: Plan
  judgement: Judgement
}) => {
  const planned = usePlanned(supply)
  const state = useTable(planned, plan.lamp)
  const out = useStore(leftOut, (all) => all)
  const read = judgement.checks.filter((c) => judgement.symptoms.some((s) => s.check === c.check.id))
  return (
    <section className="fl-finder">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div className="fl-table-state" role="status">
        {state.problem && <p className="problem">{words.failed(state.problem)}</p>}
        {!state.table && !state.problem && (
          <>
            <p>{state.of > 0 ? words.computing(state.done, state.of) : words.looking}</p>
            <progress max={state.of || 1} value={state.done} aria-label={words.table} />
          </>
        )}
        {state.table && <p className="hint">{words.ready(state.table.rows.length - 1)}</p>}
      </div>
      <div className="fl-known">
        <h4>{words.symptoms}</h4>
        {read.length === 0 && <p className="empty">{words.noSymptoms}</p>}
        <ul>
          {read.map(({ check, entry, standing }) => {
            const key = `${supply.id} ${check.id}`
            return (
              <li key={check.id} data-bad={!isGood(standing) || undefined}>
                <label>
                  <input
                    type="checkbox"
                    className="check"
                    aria-label={words.leaveOut(check.what)}
                    checked={!out.has(key)}
                    onChange={() => toggleLeftOut(key)}
                  />
                  <span>
                    {check.what}: <b>{entry ? valueWords(check, entry) : ''}</b>{' '}
                    <small>{standing ? firstLightStrings.check.standing[standing] : ''}</small>
                  </span>
                </label>
              </li>
            )
          })}
        </ul>
        <SymptomChooser supply={supply} plan={plan} judgement={judgement} />
      </div>
      {state.table && <Answer supply={supply} plan={plan} judgement={judgement} table={state.table} />}
    </section>
  )
}
