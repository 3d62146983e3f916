import { useEffect } from 'react'
import type { Assessment } from '../../../engine/limits/assess.ts'
import { type Limit, rankOf } from '../../../engine/limits/limit.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { GapGauge, StandingMark } from '../../controls/gauge.tsx'
import { Icon } from '../../controls/icon.tsx'
import { wholeAssessmentOf } from '../../state/assessment.ts'
import { desk, openSupply } from '../../state/desk.ts'
import { showAgainst, showRoom, standing } from '../../state/limits.ts'
import { formatRoute, go } from '../../state/route.ts'
import { useStore } from '../../state/store.ts'
import { strings } from '../../strings/common.ts'
import { limitStrings } from '../../strings/limits.ts'
import { shelfStrings as words } from '../../strings/shelf.ts'
import {
  buildDifferences,
  type Difference,
  limitPairs,
  needDifferences,
  readingDifferences,
} from './differences.ts'

const useSupply = (id: string) => {
  useEffect(() => void openSupply(id), [id])
  const doc = useStore(desk, (d) => d.supplies[id])
  const missing = useStore(desk, (d) => d.unopened[id])
  const supply = doc?.history.value ?? null
  const result = supply ? wholeAssessmentOf(supply) : null
  return { supply, missing, answer: result?.ok ? result.value : null }
}

const Table = ({
  title,
  note,
  rows,
  names,
}: {
  title: string
  note?: string
  rows: readonly Difference[]
  names: readonly [string, string]
}) => (
  <section className="compare-part">
    <h2>{title}</h2>
    {note && <p className="lead">{note}</p>}
    {rows.length === 0 ? (
      <p className="empty">{words.same}</p>
    ) : (
      <table className="compare-table">
        <thead className="unseen">
          <tr>
            <th scope="col">{words.what}</th>
            <th scope="col">{names[0]}</th>
            <th scope="col">{names[1]}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id}>
              <th scope="row">{row.label}</th>
              <td>{row.left}</td>
              <td>{row.right}</td>
            </tr>
          ))}
        </tbody>
      </table>
    )}
  </section>
)

const LimitCell = ({ limit }: { limit: Limit | null }) => {
  if (limit === null) return <td>–</td>
  const state = standing(limit)
  return (
    <td className="compare-limit" data-state={state}>
      <StandingMark state={state} label={limitStrings[state]} /> <b>{showRoom(limit)}</b>
      <GapGauge margin={rankOf(limit)} state={state} />
      <small>
        {showAgainst(limit).reading} {showAgainst(limit).rating}
      </small>
    </td>
  )
}

const Limits = ({
  left,
  right,
  names,
}: {
  left: Assessment
  right: Assessment
  names: readonly [string, string]
}) => {
  const pairs = limitPairs(left.limits, right.limits)
  return (
    <section className="compare-part">
      <h2>{words.sections.limits}</h2>
      {pairs.length === 0 ? (
        <p className="empty">{words.same}</p>
      ) : (
        <table className="compare-table">
          <thead className="unseen">
            <tr>
              <th scope="col">{words.what}</th>
              <th scope="col">{names[0]}</th>
              <th scope="col">{names[1]}</th>
            </tr>
          </thead>
          <tbody>
            {pairs.map((p) => (
              <tr key={p.id}>
                <th scope="row">{p.title}</th>
                <LimitCell limit={p.left} />
                <LimitCell limit={p.right} />
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

const Head = ({ supply, answer }: { supply: Supply; answer: Assessment | null }) => {
  const first = answer?.limits[0]
  return (
    <div>
      <a href={formatRoute({ at: 'supply', id: supply.id, view: null, focus: null })}>{supply.name}</a>
      {first && (
        <p data-state={standing(first)}>
          <StandingMark state={standing(first)} label={limitStrings[standing(first)]} /> {first.title}{' '}
          <b>{showRoom(first)}</b>
        </p>
      )}
    </div>
  )
}

/** Two supplies side by side: what differs in need, build, limits and readings. */
export const CompareView = ({ left, right }: { left: string; right: string }) => {
  const one = useSupply(left)
  const two = useSupply(right)
  const missing = one.missing ?? two.missing
  if (missing !== undefined)
    return (
      <div className="page">
        <h1>{missing}</h1>
        <a href="#/">{strings.shelf.back}</a>
      </div>
    )
  if (!one.supply || !two.supply) return <div className="view-waits" />
  const names = [one.supply.name, two.supply.name] as const
  return (
    <div className="page compare">
      <div className="page-head">
        <h1>{words.compareTitle}</h1>
        <p className="lead">{words.compareLead}</p>
        <button
          type="button"
          className="plain"
          onClick={() => go({ at: 'compare', left: right, right: left })}
        >
          <Icon name="compare" /> {words.swap}
        </button>
      </div>
      <div className="compare-head">
        <span />
        <Head supply={one.supply} answer={one.answer} />
        <Head supply={two.supply} answer={two.answer} />
      </div>
      {one.answer && two.answer && <Limits left={one.answer} right={two.answer} names={names} />}
      <Table title={words.sections.need} rows={needDifferences(one.supply, two.supply)} names={names} />
      <Table
        title={words.sections.build}
        rows={buildDifferences(one.supply, two.supply, one.answer, two.answer)}
        names={names}
      />
      {one.answer && two.answer && (
        <Table
          title={words.sections.readings}
          note={words.condition}
          rows={readingDifferences(one.answer.evaluation, two.answer.evaluation)}
          names={names}
        />
      )}
    </div>
  )
}
