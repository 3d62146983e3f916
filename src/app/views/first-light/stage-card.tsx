import { memo, type ReactNode } from 'react'
import type { AsBuiltOffer, Judged, Stage, StageProgress } from '../../../engine/bench/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { firstLightStrings } from '../../strings/first-light.ts'
import { CheckCard } from './check-card.tsx'
import { tick } from './record.ts'

const words = firstLightStrings.stage

const leftId = (stage: Stage): string => `left:${stage.id}`

/** The ends of a stage: discharge where it was live, then the tick that opens the next. */
const StageEnd = ({
  supply,
  stage,
  progress,
  stopped,
  waitsFor,
}: {
  supply: Supply
  stage: Stage
  progress: StageProgress
  stopped: boolean
  waitsFor: string
}) => {
  const left = supply.bench.ticked.includes(leftId(stage))
  const done = progress.state === 'done'
  const missing = progress.of - progress.read
  const blocked =
    progress.state === 'locked'
      ? words.waits(waitsFor)
      : stopped
        ? words.blocked
        : stage.live && !left
          ? words.undischarged
          : null
  return (
    <div className="fl-end">
      <div className="fl-leave" data-live={stage.live || undefined}>
        <h4>{stage.live ? words.leave : words.afterwards}</h4>
        <p>{stage.leave}</p>
        {stage.live && (
          <label className="fl-big">
            <input
              type="checkbox"
              className="fl-tick"
              checked={left}
              onChange={(event) =>
                tick(supply.id, leftId(stage), event.target.checked, words.left(stage.title))
              }
            />
            {words.discharged}
          </label>
        )}
      </div>
      {done ? (
        <button
          type="button"
          className="plain"
          onClick={() => tick(supply.id, stage.id, false, words.unticked(stage.title), [leftId(stage)])}
        >
          {words.untick}
        </button>
      ) : (
        <>
          <button
            type="button"
            className="act fl-stage-tick"
            disabled={blocked !== null}
            onClick={() => tick(supply.id, stage.id, true, words.ticked(stage.title))}
          >
            {missing === 0 ? words.tick(stage.title) : words.tickAnyway(missing)}
          </button>
          {blocked && <p className="hint">{blocked}</p>}
        </>
      )}
    </div>
  )
}

/** One stage of the plan: closed to a line, or open with its checks. */
export const StageCard = memo(
  ({
    supply,
    stage,
    progress,
    number,
    checks,
    offers,
    nextId,
    isOpen,
    toggle,
    waitsFor,
    children,
  }: {
    supply: Supply
    stage: Stage
    progress: StageProgress
    number: number
    checks: readonly Judged[]
    offers: readonly AsBuiltOffer[]
    nextId: string | null
    isOpen: boolean
    toggle: (id: string) => void
    waitsFor: string
    children?: ReactNode
  }) => {
    const { state, read, of } = progress
    const stopped = checks.some((c) => c.standing === 'stop')
    const flagged = checks.some((c) => c.suspect !== null)
    const mark = stopped ? 'over' : flagged ? 'close' : state === 'done' ? 'holds' : null
    return (
      <section className="fl-stage" data-state={state} id={`stage-${stage.id}`}>
        <h3>
          <button
            type="button"
            className="fl-stage-head"
            aria-expanded={isOpen}
            onClick={() => toggle(stage.id)}
          >
            <span className="fl-number">{number}</span>
            <span className="fl-stage-title">{stage.title}</span>
            {stage.live && <span className="fl-live">{words.live}</span>}
            <span className="fl-count">
              {mark && <StandingMark state={mark} label="" />}{' '}
              {state === 'open' ? words.read(read, of) : words.states[state]}
            </span>
          </button>
        </h3>
        {isOpen && (
          <div className="fl-stage-body">
            {state === 'locked' && <p className="fl-locked">{words.waits(waitsFor)}</p>}
            <p className="lead">{stage.purpose}</p>
            <div className="fl-before">
              <div>
                <h4>{words.setUp}</h4>
                <ul>
                  {stage.setUp.map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ul>
              </div>
              <div className="fl-stops">
                <h4>{words.stops}</h4>
                <ul>
                  {stage.stops.map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ul>
              </div>
            </div>
            {stage.cautions.map((line) => (
              <p className="caution" key={line}>
                {line}
              </p>
            ))}
            {children}
            <ol className="fl-checks">
              {checks.map((judged) => (
                <CheckCard
                  key={judged.check.id}
                  supply={supply}
                  judged={judged}
                  offer={offers.find((o) => o.check.id === judged.check.id) ?? null}
                  isNext={nextId === judged.check.id}
                  ticked={supply.bench.ticked.includes(judged.check.id)}
                />
              ))}
            </ol>
            <StageEnd
              supply={supply}
              stage={stage}
              progress={progress}
              stopped={stopped}
              waitsFor={waitsFor}
            />
          </div>
        )}
      </section>
    )
  },
)
