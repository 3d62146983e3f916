import { memo, useEffect, useMemo, useState } from 'react'
import {
  cornerById,
  type StageTrace,
  type StageWave,
  scopeSetting,
  timePerDivision_s,
} from '../../../engine/stage/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { show } from '../../fields/show.ts'
import { desk, openSupply } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { waveformStrings as words } from '../../strings/waveforms.ts'
import { saveFile } from '../shelf/files.ts'
import { CornerPlate, cornerStore } from './corner-plate.tsx'
import { ScopeFigure } from './scope-figure.tsx'
import { ask } from './stage-pool.ts'
import { useWave } from './use-wave.ts'
import { allTraces, shownTrace, unitOfTrace, usualTraces, waveCsv, waveLanes } from './wave-lanes.ts'

const range = (values: Float64Array): readonly [number, number] => {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const v of values) {
    low = Math.min(low, v)
    high = Math.max(high, v)
  }
  return [low, high]
}

/** Probe point, volts per division and what to mind for each waveform on show. */
const BenchTable = ({ wave, traces }: { wave: StageWave; traces: readonly StageTrace[] }) => {
  const span_s = wave.waveforms.time_s.at(-1) ?? 1e-6
  const t = words.bench
  return (
    <section className="wave-bench">
      <h3>{t.title}</h3>
      <p className="lead">{t.lead(show(timePerDivision_s(span_s), 's'))}</p>
      <div className="table-scroll">
        <table className="wave-table">
          <thead>
            <tr>
              <th scope="col">{t.waveform}</th>
              <th scope="col">{t.perDivision}</th>
              <th scope="col">{t.probe}</th>
            </tr>
          </thead>
          <tbody>
            {traces.map((trace) => {
              const { heading, probe, care } = words.traces[trace]
              const [low, high] = range(shownTrace(wave, trace))
              const { perDivision } = scopeSetting(low, high)
              return (
                <tr key={trace}>
                  <th scope="row">{heading}</th>
                  <td>{show(perDivision, unitOfTrace(trace))}</td>
                  <td className="wave-words">
                    {probe}. <span>{care}</span>
                  </td>
                </tr>
              )
            })}
          </tbody>
        </table>
      </div>
      <p className="caution">{t.caution}</p>
    </section>
  )
}

/** Another build to lay behind: one of the shelf, or this one as it was. */
const useOther = (supply: Supply): readonly [Supply | null, string, (choice: string) => void, string] => {
  const [choice, setChoice] = useState('')
  const [pinned, setPinned] = useState<Supply | null>(null)
  const fromShelf = useStore(desk, (d) => d.supplies[choice])
  useEffect(() => {
    if (choice !== '' && choice !== 'pinned') void openSupply(choice)
  }, [choice])
  const pick = (next: string) => {
    if (next === 'pinned') setPinned(supply)
    setChoice(next)
  }
  const other = choice === 'pinned' ? pinned : (fromShelf?.history.value ?? null)
  const name = choice === 'pinned' ? words.compare.pinned : (other?.name ?? '')
  return [choice === '' ? null : other, choice, pick, name]
}

const summaryOf = ({ figures: f, period_s }: StageWave): string =>
  [
    `${words.traces.drain_V.heading} ${show(f.drainPeak_V, 'V')}`,
    `${words.traces.primary_A.heading} ${show(f.primaryPeak_A, 'A')}`,
    `${words.traces.secondary_A.heading} ${show(f.secondaryPeak_A, 'A')}`,
    `${words.traces.output_V.heading} ${show(f.outputRipple_Vpp, 'V')}`,
    show(period_s, 's'),
  ].join(', ')

/** The repeating cycle at any corner: waveforms with cursors, another build behind, and how to see it on the bench. */
export const CyclePart = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const { design } = evaluation
  const { supply } = design
  const id = useStore(cornerStore, (c) => c)
  const corner = cornerById.get(id)!
  const [other, choice, pick, otherName] = useOther(supply)
  const here = useWave(supply, id)
  const beside = useWave(other, id)
  const [traces, setTraces] = useState<readonly StageTrace[]>(usualTraces)
  const shelf = useStore(desk, (d) => d.shelf)
  const { wave } = here
  const switcher = design.parts.switcher
  const ratings = useMemo(
    () => ({
      drain_V: switcher.drainVoltage_V,
      reverse_V: design.parts.rectifier.reverse_V,
      primary_A: switcher.currentLimit_A.minimum,
    }),
    [switcher, design],
  )
  const lanes = useMemo(
    () => (wave ? waveLanes(wave, beside.wave, traces, ratings) : []),
    [wave, beside.wave, traces, ratings],
  )
  const toggle = (trace: StageTrace) =>
    setTraces((now) => {
      const next = now.includes(trace) ? now.filter((t) => t !== trace) : [...now, trace]
      return next.length === 0 ? now : allTraces.filter((t) => next.includes(t))
    })
  const saveDeck = async () => {
    const outcome = await ask(supply, { kind: 'deck', corner: id }, { first: true }).answer
    if (outcome.is === 'answer' && outcome.value.ok)
      saveFile(`${supply.id}-${id}.cir`, outcome.value.text, 'text/plain')
  }
  return (
    <section className="wave-cycle" aria-label={words.parts.cycle}>
      <CornerPlate />
      <div className="wave-choices">
        <fieldset className="corner-row">
          <legend>{words.figure.channels}</legend>
          <div className="corner-keys">
            {allTraces.map((trace) => (
              <button
                key={trace}
                type="button"
                className="plate-cell"
                aria-pressed={traces.includes(trace)}
                onClick={() => toggle(trace)}
              >
                {words.traces[trace].heading}
              </button>
            ))}
          </div>
        </fieldset>
        <label className="wave-beside">
          {words.compare.label}
          <select className="choice" value={choice} onChange={(event) => pick(event.target.value)}>
            <option value="">{words.compare.none}</option>
            <option value="pinned">{words.compare.pin}</option>
            {(shelf ?? [])
              .filter((entry) => entry.id !== supply.id)
              .map((entry) => (
                <option key={entry.id} value={entry.id}>
                  {entry.name}
                </option>
              ))}
          </select>
        </label>
      </div>
      <p className="wave-state" role="status">
        {here.problem !== null
          ? words.failed(here.problem)
          : here.fresh
            ? wave && wave.repeatsAfter === 0
              ? words.restless
              : wave && wave.repeatsAfter > 1
                ? words.doubled(wave.repeatsAfter)
                : wave && wave.period_s * wave.parameters.frequency_Hz > 1.5
                  ? words.skipped(Math.round(wave.period_s * wave.parameters.frequency_Hz))
                  : corner.label
            : wave
              ? words.stale
              : words.working}
        {other && beside.wave && here.fresh && ` ${words.compare.dashed(otherName)}`}
      </p>
      {wave && (
        <>
          <div data-stale={!here.fresh || undefined} className="wave-figure">
            <ScopeFigure
              title={words.figure.title(cornerById.get(wave.corner)?.label ?? wave.corner)}
              from_s={0}
              to_s={wave.waveforms.time_s.at(-1) ?? wave.period_s}
              lanes={lanes}
              summary={summaryOf(wave)}
            />
          </div>
          <p className="wave-saves">
            <button
              type="button"
              className="plain"
              onClick={() => saveFile(`${supply.id}-${wave.corner}.csv`, waveCsv(wave), 'text/csv')}
            >
              {words.figure.save}
            </button>{' '}
            <button type="button" className="plain" onClick={() => void saveDeck()}>
              {words.figure.deck}
            </button>
          </p>
          <BenchTable wave={wave} traces={traces} />
        </>
      )}
    </section>
  )
})
