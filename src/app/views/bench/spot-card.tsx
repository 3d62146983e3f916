import type { Limit } from '../../../engine/limits/limit.ts'
import { conditionById } from '../../../engine/supply/condition.ts'
import { at, type Evaluation } from '../../../engine/supply/evaluation.ts'
import {
  type FixedReadingKey,
  fixedReadingInfo,
  fixedReadingKeys,
  infoOf,
  type ReadingKey,
  readingKeys,
} from '../../../engine/supply/reading.ts'
import { reference, type Spot } from '../../../engine/supply/refs.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { Icon } from '../../controls/icon.tsx'
import { sectionOfSpot } from '../../fields/build-fields.ts'
import { show } from '../../fields/show.ts'
import { showRoom, standing } from '../../state/limits.ts'
import { useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'
import { controlStrings } from '../../strings/controls.ts'
import { limitStrings } from '../../strings/limits.ts'
import { spotLabel } from '../../strings/spots.ts'
import { focusSpot } from '../work/focus.ts'
import { conditionStore } from './condition-plate.tsx'

/** Spots that are one thing in the circuit share a designator, and so share this card. */
const together = (spot: Spot, other: Spot): boolean => reference[spot] === reference[other]

/** What is known about one part: its limits, its readings at the condition on show, and the way to change it. */
export const SpotCard = ({
  spot,
  evaluation,
  limits,
  pickLimit,
  close,
}: {
  spot: Spot
  evaluation: Evaluation
  limits: readonly Limit[]
  pickLimit: (id: string) => void
  close: () => void
}) => {
  const condition = useStore(conditionStore, (c) => c)
  const here = at(evaluation, condition)
  const own = limits.filter((l) => together(l.spot, spot))
  const keys: (ReadingKey | FixedReadingKey)[] = [...readingKeys, ...fixedReadingKeys].filter(
    (key) => key !== 'mode' && together(infoOf(key).spot, spot),
  )
  const read = (key: ReadingKey | FixedReadingKey) =>
    key in fixedReadingInfo
      ? evaluation.fixed[key as FixedReadingKey]
      : (here?.readings[key as ReadingKey] ?? Number.NaN)
  const place = sectionOfSpot(spot) === null ? null : spot
  return (
    <aside className="spot-card" aria-label={spotLabel(spot)}>
      <header>
        <h3>
          <span className="part-ref">{reference[spot]}</span> {spotLabel(spot)}
        </h3>
        <button type="button" className="quiet" aria-label={controlStrings.close} onClick={close}>
          <Icon name="close" />
        </button>
      </header>
      {own.length > 0 && (
        <ul className="spot-limits">
          {own.map((limit) => {
            const state = standing(limit)
            return (
              <li key={limit.id}>
                <button type="button" data-state={state} onClick={() => pickLimit(limit.id)}>
                  <StandingMark state={state} label={limitStrings[state]} />
                  <span>{limit.title}</span>
                  <b>{showRoom(limit)}</b>
                </button>
              </li>
            )
          })}
        </ul>
      )}
      {keys.length > 0 && (
        <>
          <p className="spot-condition">{conditionById.get(condition)?.label}</p>
          <dl className="spot-readings">
            {keys.map((key) => (
              <div key={key}>
                <dt>{infoOf(key).label}</dt>
                <dd>{show(read(key), infoOf(key).unit)}</dd>
              </div>
            ))}
          </dl>
        </>
      )}
      {(place !== null || spot === 'output' || spot === 'input') && (
        <button type="button" className="plain" onClick={() => focusSpot(spot)}>
          {benchStrings.change}
        </button>
      )}
    </aside>
  )
}
