import { memo, useMemo, useState } from 'react'
import { transformerGate } from '../../../engine/bench/index.ts'
import type { GapPlace } from '../../../engine/magnetics/gap/index.ts'
import { emptyBench } from '../../../engine/supply/bench-log.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { type GapWay, planGap, type SpacerFilm } from '../../../engine/supply/transformer/index.ts'
import { setting } from '../../fields/check.ts'
import { readValue } from '../../fields/parse.ts'
import { show, showPercent } from '../../fields/show.ts'
import { desk, editSupply } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import { sentence } from './sentence.ts'
import { TypedCell } from './typed-cell.tsx'
import { usePlanned } from './use-planned.ts'

const words = transformerStrings.gap

/** Spacer films of the drawer, with how many layers can be cut. */
const useFilms = (): readonly SpacerFilm[] => {
  const drawer = useStore(desk, (d) => d.drawer)?.history.value
  return useMemo(
    () =>
      (drawer?.entries ?? []).flatMap(({ part, quantity }) =>
        part.kind === 'film'
          ? [
              {
                id: part.id,
                thickness_m: part.thickness_m,
                layers: quantity,
                temperature_C: part.temperature_C,
              },
            ]
          : [],
      ),
    [drawer],
  )
}

const Warnings = ({ of }: { of: readonly { readonly code: string; readonly message: string }[] }) =>
  of.length === 0 ? null : (
    <ul className="gap-warnings">
      {of.map((warning) => (
        <li key={warning.code}>{sentence(warning.message)}</li>
      ))}
    </ul>
  )

/** Carries a gap into the build. */
const takeGap = (evaluation: Evaluation, place: GapPlace, gap_m: number, what: string): void => {
  const { supply } = evaluation.design
  editSupply(supply.id, {
    label: words.used(what),
    key: null,
    changes: setting(supply, [
      [['build', 'transformer', 'gapPlace'], place],
      [['build', 'transformer', 'gap_m'], Number(gap_m.toPrecision(4))],
    ]),
  })
}

const Use = ({
  evaluation,
  place,
  gap_m,
  what,
}: {
  evaluation: Evaluation
  place: GapPlace
  gap_m: number
  what: string
}) => {
  const t = evaluation.design.transformer
  if (t.gapPlace === place && Math.abs(t.gap_m / gap_m - 1) < 5e-3)
    return <span className="in-use">{words.inUse}</span>
  return (
    <button
      type="button"
      className="plain"
      aria-label={`${words.use}: ${what}`}
      onClick={() => takeGap(evaluation, place, gap_m, what)}
    >
      {words.use}
    </button>
  )
}

const Way = ({
  evaluation,
  way,
  title,
  means,
}: {
  evaluation: Evaluation
  way: GapWay
  title: string
  means: string
}) => (
  <div className="gap-way">
    <h4>{title}</h4>
    <p className="gap-figure">{way.gap_m === null ? '–' : show(way.gap_m, 'm')}</p>
    <p>{means}</p>
    <p className="quiet-text">{words.plain(show(way.plain_m, 'm'))}</p>
    {way.problem && <p className="gap-problem">{way.problem}</p>}
    <Warnings of={way.warnings} />
    {way.gap_m !== null && <Use evaluation={evaluation} place={way.place} gap_m={way.gap_m} what={title} />}
  </div>
)

/** What an inductance on the meter would mean, without keeping it. */
const Trial = ({ evaluation }: { evaluation: Evaluation }) => {
  const [tried_H, setTried] = useState<number | null>(null)
  const planned = usePlanned(evaluation.design.supply)
  const gate = useMemo(() => {
    if (tried_H === null || planned === null) return null
    return transformerGate(planned, {
      ...emptyBench().asBuilt,
      primaryInductance_H: { value: tried_H, instrument: '', frequency_Hz: null, accuracy: null },
    })
  }, [tried_H, planned])
  return (
    <div className="gap-trial">
      <div className="gap-trial-field">
        <span>{words.trial}</span>
        <TypedCell
          label={words.trial}
          shown={tried_H === null ? '' : show(tried_H, 'H', 4)}
          placeholder={show(evaluation.design.transformer.plannedInductance_H.typical, 'H')}
          commit={(text) => {
            if (text.trim() === '') {
              setTried(null)
              return null
            }
            const value = readValue(text, 'H')
            if (value === null || !(value > 0)) return transformerStrings.bench.notNumber(words.trial, text)
            setTried(value)
            return null
          }}
        />
        <span className="quiet-text">{words.trialHelp}</span>
      </div>
      {gate && (
        <div className="gate-words" data-verdict={gate.verdict} role="status">
          <p>
            <b>{transformerStrings.bench.verdicts[gate.verdict]}.</b> {gate.reasons.map(sentence).join(' ')}
          </p>
          <p>
            {words.ceiling(show(gate.numbers.ceiling_W, 'W'), show(gate.numbers.wanted_W, 'W'))}{' '}
            {words.flux(show(gate.numbers.fluxAtLimit_T, 'T'), show(gate.numbers.saturation_T, 'T'))}
          </p>
        </div>
      )}
    </div>
  )
}

/** The gap as a builder makes it: cut, spacers, films at hand, and the inductance to read. */
export const GapPanel = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const films = useFilms()
  const { design } = evaluation
  const plan = useMemo(() => planGap(design, films), [design, films])
  const filmWords = plan.films?.stack.layers
    .map(({ id, count }) => {
      const film = films.find((f) => f.id === id)
      return `${count > 1 ? `${count} × ` : ''}${film ? show(film.thickness_m, 'm') : id}`
    })
    .join(' + ')
  return (
    <section className="gap-plan">
      <h3>{words.title}</h3>
      <p className="lead">
        {words.lead(
          show(plan.inductance_H.typical, 'H'),
          show(plan.inductance_H.minimum, 'H'),
          show(plan.inductance_H.maximum, 'H'),
        )}{' '}
        AL {show(plan.factor_H, 'H')}.
      </p>
      <div className="gap-ways">
        <Way evaluation={evaluation} way={plan.post} title={words.post} means={words.postMeans} />
        <Way
          evaluation={evaluation}
          way={plan.legs}
          title={words.legs}
          means={words.legsMeans(plan.outerToPostRatio.toPrecision(3))}
        />
        <div className="gap-way">
          <h4>{words.films}</h4>
          {plan.films === null ? (
            <p>{plan.noFilms}</p>
          ) : (
            <>
              <p className="gap-figure">{filmWords}</p>
              <p>
                {words.reads(
                  show(plan.films.inductance_H, 'H'),
                  `${plan.films.error > 0 ? '+' : ''}${showPercent(plan.films.error)}`,
                )}
              </p>
              <Warnings of={plan.films.warnings} />
              <Use
                evaluation={evaluation}
                place="all-legs"
                gap_m={plan.films.stack.thickness_m}
                what={filmWords ?? ''}
              />
            </>
          )}
        </div>
      </div>
      <Trial evaluation={evaluation} />
      <p className="caution">{words.notes}</p>
    </section>
  )
})
