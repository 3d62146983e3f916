import { useMemo, useState } from 'react'
import { harmonicBars } from '../../../drawing/first-light/harmonic-bars.ts'
import { lines } from '../../../drawing/first-light/lines.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { emissionOf, type OutputEarth } from '../../../engine/supply/mains-side/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { mainsStrings } from '../../strings/mains.ts'
import type { MainsAnswer } from './answers.ts'

const words = mainsStrings.emission
const decibels = (value: number): string =>
  words.decibels((Math.round(value) || 0).toFixed(0).replace('-', '−'))

/** Estimated emission against the class B line, and the inductances that the estimate asks for. */
export const EmissionPanel = ({ evaluation }: { evaluation: Evaluation }) => {
  const { design } = evaluation
  const [earth, setEarth] = useState<OutputEarth>(design.need.outputEarthed ? 'earthed' : 'floating')
  const answer = useMemo(() => emissionOf(design, earth), [design, earth])
  const node = useMemo(() => {
    if (answer === null) return null
    const { points, differentialMargin_dB, commonMargin_dB } = answer.estimate
    const x = points.map((p) => p.frequency_Hz)
    return lines({
      title: words.plot(decibels(differentialMargin_dB), decibels(commonMargin_dB)),
      heading: words.heading,
      lines: [
        { name: words.differential, x, y: points.map((p) => p.differential_dBuV), kind: 'line' },
        { name: words.common, x, y: points.map((p) => p.common_dBuV), kind: 'second' },
        { name: words.limit, x, y: points.map((p) => p.limit_dBuV), kind: 'third' },
      ],
      levels: [],
      x: { log: true, show: (f) => show(f, 'Hz', 2) },
      y: { from: -20, show: (v) => String(v).replace('-', '−') },
    })
  }, [answer])
  if (answer === null || node === null)
    return (
      <section>
        <h3>{words.title}</h3>
        <p>{words.none}</p>
      </section>
    )
  const { filter, source, margin_dB } = answer
  const needed = (inductance_H: number | null): string =>
    inductance_H === null ? words.notEnough : inductance_H === 0 ? words.nothing : show(inductance_H, 'H', 2)
  const has = (inductance_H: number): string =>
    inductance_H === 0 ? words.nothing : show(inductance_H, 'H', 2)
  return (
    <section>
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <fieldset className="mains-choice">
        <legend className="unseen">{words.earth}</legend>
        {(['floating', 'earthed'] as const).map((name) => (
          <button
            key={name}
            type="button"
            className="plate-cell"
            aria-pressed={name === earth}
            onClick={() => setEarth(name)}
          >
            {words[name]}
          </button>
        ))}
      </fieldset>
      <div className="mains-chart">
        <Drawing node={node} />
      </div>
      <div className="table-scroll">
        <table className="reading-table mains-table">
          <thead>
            <tr>
              <td />
              <th scope="col">{words.margin}</th>
              <th scope="col">{words.has}</th>
              <th scope="col">{words.needs(decibels(margin_dB))}</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">{words.differential}</th>
              <td>{decibels(answer.estimate.differentialMargin_dB)}</td>
              <td>{has(filter.differentialInductance_H)}</td>
              <td>{needed(answer.differentialNeeded_H)}</td>
            </tr>
            <tr>
              <th scope="row">{words.common}</th>
              <td>{decibels(answer.estimate.commonMargin_dB)}</td>
              <td>{has(filter.commonInductance_H)}</td>
              <td>{needed(answer.commonNeeded_H)}</td>
            </tr>
          </tbody>
        </table>
      </div>
      <p className="hint">
        {words.restsOn(show(source.windingCapacitance_F, 'F', 2), show(source.edge_s, 's', 2))}
      </p>
    </section>
  )
}

const text = mainsStrings.harmonics

/** The harmonic question of the charging pulse. */
export const HarmonicPanel = ({ answer }: { answer: MainsAnswer }) => {
  const { harmonics, nominal } = answer
  const node = useMemo(
    () =>
      harmonics &&
      harmonicBars({
        title: text.plot(showPercent(harmonics.worstClassA.use), showPercent(harmonics.worstClassD.use)),
        heading: text.heading,
        harmonics: harmonics.harmonics,
        words: { classA: text.classA, classD: text.classD },
        showCurrent: (a) => show(a, 'A', 2),
      }),
    [harmonics],
  )
  if (harmonics === null || nominal === null || node === null) return null
  const input = show(nominal.input.bulk.input_W, 'W')
  const { worstClassA: a, worstClassD: d } = harmonics
  return (
    <section>
      <h3>{text.title}</h3>
      <p className="lead">
        {harmonics.limitsApply ? text.above(input) : `${text.below(input)} ${text.aside}`}
      </p>
      <div className="mains-chart">
        <Drawing node={node} />
      </div>
      <p>
        {text.use(text.classA, showPercent(a.use), a.order, a.use > 1)}{' '}
        {text.use(text.classD, showPercent(d.use), d.order, d.use > 1)}
      </p>
    </section>
  )
}
