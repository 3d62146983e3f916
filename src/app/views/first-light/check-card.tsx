import { memo } from 'react'
import { type AsBuiltOffer, type Check, instrumentName, type Judged } from '../../../engine/bench/index.ts'
import { reference } from '../../../engine/supply/refs.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { show } from '../../fields/show.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { TypedCell } from '../transformer/typed-cell.tsx'
import { AsBuiltOfferRow } from './as-built-offer.tsx'
import { ReadingEntry } from './reading-entry.tsx'
import { amend, tick } from './record.ts'
import { expectWords, valueWords, whenWords } from './words.ts'

const words = firstLightStrings.check

export const isGood = (standing: Judged['standing']): boolean =>
  standing === 'in band' || standing === 'as expected'

const stateOf = (standing: Judged['standing']): 'holds' | 'over' | 'close' =>
  isGood(standing) ? 'holds' : standing === 'stop' ? 'over' : 'close'

/** Where to hold the probes, with what, and why nothing is shorted by it. */
const How = ({ check }: { check: Check }) => {
  const { chosen, probe, scope, stop } = check
  return (
    <dl className="fl-how">
      {probe && (
        <div>
          <dt>{words.from}</dt>
          <dd className="fl-probe">
            {probe.at} <i>{words.to}</i> {probe.reference}
          </dd>
        </div>
      )}
      {chosen.state !== 'skipped' && (
        <div>
          <dt>{words.with}</dt>
          <dd>
            {chosen.way.instruments.length > 0 && (
              <>
                <b>{chosen.way.instruments.map(instrumentName).join(', ')}</b>:{' '}
              </>
            )}
            {chosen.way.how}
            {chosen.state === 'substitute' && ` (${words.substitute})`}
          </dd>
        </div>
      )}
      {chosen.state !== 'skipped' && chosen.way.isolation && (
        <div>
          <dt>{words.isolation}</dt>
          <dd>{chosen.way.isolation}</dd>
        </div>
      )}
      {scope && (
        <div>
          <dt />
          <dd>
            {words.scope(
              show(scope.perDivision_V, 'V'),
              show(scope.perDivision_s, 's'),
              show(scope.probe_V, 'V'),
            )}
          </dd>
        </div>
      )}
      {stop && (
        <div className="fl-stop">
          <dt>{words.stop}</dt>
          <dd>{stop.text}</dd>
        </div>
      )}
    </dl>
  )
}

const Result = ({ judged }: { judged: Judged }) => {
  const { check, entry, standing, suspect } = judged
  if (entry === null || standing === null) return null
  const state = stateOf(standing)
  const order = check.live ? firstLightStrings.stop : firstLightStrings.noPower
  return (
    <div
      className="fl-result"
      data-state={state}
      role={standing === 'stop' ? 'alert' : 'status'}
      title={words.readAt(whenWords(entry.at))}
    >
      <StandingMark state={state} label="" /> <b>{valueWords(check, entry)}</b>{' '}
      <span>{words.standing[standing]}</span>
      {standing === 'stop' && <strong> {order}</strong>}
      {suspect && <p>{suspect}</p>}
    </div>
  )
}

const Otherwise = ({ check }: { check: Check }) => {
  const { suspectLow, suspectHigh, expected } = check
  if (!suspectLow && !suspectHigh && !expected?.why) return null
  return (
    <details className="fl-otherwise">
      <summary>{words.if}</summary>
      <dl>
        {suspectLow && (
          <div>
            <dt>{words.low}</dt>
            <dd>{suspectLow}</dd>
          </div>
        )}
        {suspectHigh && (
          <div>
            <dt>{words.high}</dt>
            <dd>{suspectHigh}</dd>
          </div>
        )}
        {expected?.why && (
          <div>
            <dt>{words.band}</dt>
            <dd>{expected.why}</dd>
          </div>
        )}
      </dl>
    </details>
  )
}

/** One reading of the plan: what to expect, where and with what, what was read, and what it means. */
export const CheckCard = memo(
  ({
    supply,
    judged,
    offer,
    isNext,
    ticked,
  }: {
    supply: Supply
    judged: Judged
    offer: AsBuiltOffer | null
    isNext: boolean
    ticked: boolean
  }) => {
    const { check, entry } = judged
    const { chosen, expected } = check
    const skipped = chosen.state === 'skipped'
    return (
      <li
        className="fl-check"
        id={`check-${check.id}`}
        data-next={isNext || undefined}
        data-skipped={skipped || undefined}
        data-done={entry !== null || ticked || undefined}
      >
        <header>
          {!skipped && entry !== null && (
            <span className="fl-mark">
              <StandingMark state={stateOf(judged.standing)} label="" />
            </span>
          )}
          {!skipped && entry === null && (
            <input
              type="checkbox"
              className="fl-tick"
              aria-label={words.done(check.what)}
              checked={ticked}
              onChange={(event) => tick(supply.id, check.id, event.target.checked, words.done(check.what))}
            />
          )}
          <h4>
            <span className="part-ref">{reference[check.spot]}</span> {check.what}
          </h4>
          <p className="fl-expect">
            <small>{words.expect}</small> <b>{expectWords(check)}</b>
            {expected && expected.low !== null && expected.high !== null && (
              <small> {words.about(show(expected.typical, expected.unit))}</small>
            )}
          </p>
        </header>
        {chosen.state === 'skipped' && (
          <p className="fl-skipped">
            <b>{words.skipped}.</b> {chosen.risk}{' '}
            {chosen.wouldNeed.length > 0 && words.wouldNeed(chosen.wouldNeed.map(instrumentName).join(', '))}
          </p>
        )}
        {!skipped && (
          <>
            <How check={check} />
            <ReadingEntry supplyId={supply.id} check={check} entry={entry} />
          </>
        )}
        <Result judged={judged} />
        {offer && <AsBuiltOfferRow key={offer.measured.value} supply={supply} offer={offer} />}
        {entry && (
          <details className="fl-more">
            <summary>{words.more}</summary>
            <div className="fl-offer-fields">
              <TypedCell
                label={`${words.instrument}: ${check.what}`}
                shown={entry.instrument}
                commit={(text) => {
                  amend(supply.id, check, { instrument: text.slice(0, 120) })
                  return null
                }}
              />
              {check.state === null && (
                <TypedCell
                  label={`${words.note}: ${check.what}`}
                  placeholder={words.note}
                  shown={entry.note}
                  commit={(text) => {
                    amend(supply.id, check, { note: text.slice(0, 2000) })
                    return null
                  }}
                />
              )}
            </div>
          </details>
        )}
        {!skipped && <Otherwise check={check} />}
      </li>
    )
  },
)
