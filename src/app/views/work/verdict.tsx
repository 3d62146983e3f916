import { memo } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { countStandings, showAgainst, showRoom, standing } from '../../state/limits.ts'
import { limitStrings as words } from '../../strings/limits.ts'
import { conditionText } from './limit-list.tsx'
import { MarginScale } from './margin-scale.tsx'

/** The answer in one sentence: whether it works, and what gives first. */
export const Verdict = memo(({ limits, pick }: { limits: readonly Limit[]; pick: (id: string) => void }) => {
  const first = limits[0]
  if (first === undefined) return <p className="verdict-line">{words.none}</p>
  const state = standing(first)
  const { over } = countStandings(limits)
  const { reading, rating } = showAgainst(first)
  const stopped = first.id === 'supply.runs'
  const where = conditionText(first)
  return (
    <div className="verdict" data-state={state}>
      <h2 className="verdict-line" aria-live="polite">
        <StandingMark state={state} label={words[state]} />{' '}
        {stopped ? words.stopped : first.holds ? words.firstHolds(first.title) : words.firstOver(first.title)}
      </h2>
      <p className="verdict-why">
        {stopped
          ? words.stoppedWhy(where, first.why)
          : first.holds
            ? words.verdictHolds(
                first.discrete ? showRoom(first) : words.left(showRoom(first)),
                reading,
                rating,
                where,
              )
            : words.verdictOver(reading, rating, where)}
        {over > 1 && <> {words.more(over - 1)}</>}
      </p>
      <MarginScale limits={limits} pick={pick} />
    </div>
  )
})
