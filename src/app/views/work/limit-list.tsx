import { memo, useState } from 'react'
import { type Limit, rankOf } from '../../../engine/limits/limit.ts'
import { conditionById } from '../../../engine/supply/condition.ts'
import { reference } from '../../../engine/supply/refs.ts'
import { GapGauge, StandingMark } from '../../controls/gauge.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { countStandings, showAgainst, showRoom, standing } from '../../state/limits.ts'
import { limitStrings as words } from '../../strings/limits.ts'
import { spotLabel } from '../../strings/spots.ts'
import { focusSpot } from './focus.ts'

export const conditionText = (limit: Limit): string =>
  limit.condition === null ? words.always : (conditionById.get(limit.condition)?.label ?? limit.condition)

const Detail = ({ limit }: { limit: Limit }) => (
  <div className="limit-detail">
    <dl>
      <div>
        <dt>{words.basis[limit.basis]}</dt>
        <dd>
          {words.sense[limit.sense]} {show(limit.rating, limit.unit)}
        </dd>
      </div>
      <div>
        <dt>{words.why}</dt>
        <dd>{limit.why}</dd>
      </div>
      <div>
        <dt>{words.raise}</dt>
        <dd>{limit.raise}</dd>
      </div>
    </dl>
    {limit.band > 0 && <p className="limit-band">{words.band(showPercent(limit.band))}</p>}
    <button type="button" className="plain" onClick={() => focusSpot(limit.spot)}>
      {words.go} {reference[limit.spot]} {spotLabel(limit.spot)}
    </button>
  </div>
)

const Row = memo(
  ({
    limit,
    rank,
    open,
    toggle,
  }: {
    limit: Limit
    rank: number
    open: boolean
    toggle: (id: string) => void
  }) => {
    const state = standing(limit)
    return (
      <li className="limit" data-state={state} data-limit={limit.id}>
        <button type="button" className="limit-head" aria-expanded={open} onClick={() => toggle(limit.id)}>
          <span className="limit-rank" aria-hidden="true">
            {rank}
          </span>
          <StandingMark state={state} label={words[state]} />
          <span className="limit-title">{limit.title}</span>
          <span className="limit-margin">{showRoom(limit)}</span>
          <GapGauge margin={rankOf(limit)} state={state} />
          <span className="limit-reading">
            <b>{showAgainst(limit).reading}</b> {showAgainst(limit).rating}
            <span className="limit-where"> {conditionText(limit)}</span>
          </span>
        </button>
        {open && <Detail limit={limit} />}
      </li>
    )
  },
)

/** How many of the strongest limits stay folded away until asked for. */
const folded = 0.5

/** Every limit, weakest first. `open` is the one whose reasons are shown. */
export const LimitList = memo(
  ({
    limits,
    open,
    toggle,
  }: {
    limits: readonly Limit[]
    open: string | null
    toggle: (id: string) => void
  }) => {
    const [all, setAll] = useState(false)
    const roomy = limits.filter((l) => rankOf(l) >= folded && l.id !== open)
    const shown = all ? limits : limits.filter((l) => rankOf(l) < folded || l.id === open)
    const count = countStandings(limits)
    return (
      <>
        <p className="counts">
          {words.counts(count.over, count.close, count.holds).map(({ state, mark, text }) => (
            <span key={mark} data-state={state}>
              <StandingMark state={mark} label="" /> {text}
            </span>
          ))}
        </p>
        <ol className="limits">
          {shown.map((limit, at) => (
            <Row key={limit.id} limit={limit} rank={at + 1} open={limit.id === open} toggle={toggle} />
          ))}
        </ol>
        {roomy.length > 0 && (
          <button type="button" className="plain" aria-expanded={all} onClick={() => setAll(!all)}>
            {all ? words.showFewer : words.showAll(roomy.length)}
          </button>
        )}
      </>
    )
  },
)
