import { memo, useMemo, useState } from 'react'
import {
  cornerById,
  type TimeRunId,
  type TimeRunOptions,
  type TimeRunOutcome,
  timeRunIds,
  timeRuns,
} from '../../../engine/stage/index.ts'
import type { Design } from '../../../engine/supply/design.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { show } from '../../fields/show.ts'
import { useStore } from '../../state/store.ts'
import { waveformStrings } from '../../strings/waveforms.ts'
import { courseLanes, detailLanes } from './run-lanes.ts'
import { cancelRun, runKey, runStates, startRun } from './runs-store.ts'
import { ScopeFigure } from './scope-figure.tsx'

const words = waveformStrings.runs
const loads = ['resistor', 'constant-current', 'constant-power', 'battery'] as const
type LoadKind = NonNullable<TimeRunOptions['load']>

type Look = 'course' | 'event' | 'end'

/** Traces of a run: the whole of it, around its event, or at its end. */
const Traces = ({ run, design }: { run: TimeRunOutcome; design: Design }) => {
  const [look, setLook] = useState<Look>('course')
  const { detail } = run
  const there: readonly Look[] = [
    'course',
    ...(detail?.event ? (['event'] as const) : []),
    ...(detail?.end ? (['end'] as const) : []),
  ]
  const shown = there.includes(look) ? look : 'course'
  const close = shown === 'event' ? detail?.event : shown === 'end' ? detail?.end : null
  const lanes = useMemo(() => (close ? detailLanes(close) : courseLanes(run, design)), [close, run, design])
  const marks = useMemo(
    () => (run.event_s > 0 ? [{ time_s: run.event_s, words: words.event }] : []),
    [run.event_s],
  )
  const { label } = timeRuns[run.id]
  return (
    <div className="run-traces">
      {there.length > 1 && (
        <fieldset className="corner-row">
          <legend>{words.view}</legend>
          <div className="corner-keys">
            {there.map((name) => (
              <button
                key={name}
                type="button"
                className="plate-cell"
                aria-pressed={name === shown}
                onClick={() => setLook(name)}
              >
                {{ course: words.course, event: words.around, end: words.end }[name]}
              </button>
            ))}
          </div>
        </fieldset>
      )}
      <ScopeFigure
        title={words.trace(label)}
        summary={run.telling.happens}
        from_s={close ? close.time_s[0]! : 0}
        to_s={close ? close.time_s.at(-1)! : run.end_s}
        lanes={lanes}
        marks={marks}
      />
    </div>
  )
}

const Outcome = ({ run, design }: { run: TimeRunOutcome; design: Design }) => (
  <div className="run-outcome" data-destroyed={run.destroyed || undefined}>
    <p className="run-happens">{run.telling.happens}</p>
    {run.lampTrace === null && (
      <div>
        {run.passed.length === 0 ? (
          <p className="run-passed">{words.nonePassed}</p>
        ) : (
          <>
            <h4>{words.passed}</h4>
            <ul className="run-passed">
              {run.passed.map((limit) => (
                <li key={limit.id}>
                  <StandingMark state={limit.destroys ? 'over' : 'close'} label="" />{' '}
                  {words.passedAt(
                    limit.label,
                    show(limit.rating, limit.unit),
                    show(limit.reading, limit.unit),
                    show(limit.time_s, 's'),
                  )}
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    )}
    <div>
      <h4>{words.bench}</h4>
      <p>{run.telling.bench}</p>
    </div>
    <p className="run-where">{words.madeAt(cornerById.get(run.corner)?.label ?? run.corner)}</p>
    <Traces run={run} design={design} />
  </div>
)

const RunRow = ({ id, design, load }: { id: TimeRunId; design: Design; load: LoadKind | null }) => {
  const { supply } = design
  const state = useStore(runStates, (all) => all[runKey(supply, id)])
  const [open, setOpen] = useState(false)
  const running = state?.running === true
  const outcome = state?.outcome ?? null
  const old = state !== undefined && state.of !== supply
  const { label } = timeRuns[id]
  return (
    <li className="run" data-stale={(old && !running) || undefined}>
      <div className="run-head">
        <h3>
          {outcome ? (
            <button
              type="button"
              className="reading-name"
              aria-expanded={open}
              onClick={() => setOpen(!open)}
            >
              {label}
            </button>
          ) : (
            label
          )}
        </h3>
        {running ? (
          <>
            <progress {...(state.fraction > 0 ? { value: state.fraction } : {})} aria-label={label} />
            <button type="button" className="plain" onClick={() => cancelRun(supply, id)}>
              {words.cancel}
            </button>
          </>
        ) : (
          <button
            type="button"
            className="plain"
            aria-label={`${outcome ? words.again : words.run}: ${label}`}
            onClick={() => {
              setOpen(true)
              void startRun(supply, id, load === null ? {} : { load })
            }}
          >
            {outcome ? words.again : words.run}
          </button>
        )}
      </div>
      <div role="status">
        {state?.problem && <p className="problem">{words.failed(state.problem)}</p>}
        {outcome && !open && (
          <button type="button" className="run-sentence" aria-expanded={false} onClick={() => setOpen(true)}>
            {outcome.telling.happens}
          </button>
        )}
      </div>
      {outcome && open && <Outcome run={outcome} design={design} />}
    </li>
  )
}

/** Starts, steps, shorts and faults, each with its sentence and its traces. */
export const RunsPart = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const { design } = evaluation
  const [load, setLoad] = useState<LoadKind | null>(null)
  return (
    <section className="wave-runs" aria-label={waveformStrings.parts.runs}>
      <p className="lead">{words.lead}</p>
      <div className="runs-tools">
        <label className="wave-beside">
          {words.load.label}
          <select
            className="choice"
            value={load ?? ''}
            onChange={(event) => setLoad((event.target.value || null) as LoadKind | null)}
          >
            <option value="">{words.load.own}</option>
            {loads.map((kind) => (
              <option key={kind} value={kind}>
                {words.load[kind]}
              </option>
            ))}
          </select>
        </label>
        <button
          type="button"
          className="act"
          onClick={() => {
            for (const id of timeRunIds) void startRun(design.supply, id, load === null ? {} : { load })
          }}
        >
          {words.all}
        </button>
      </div>
      <ul className="runs">
        {timeRunIds.map((id) => (
          <RunRow key={id} id={id} design={design} load={load} />
        ))}
      </ul>
      <p className="caution">{words.caution}</p>
    </section>
  )
})
