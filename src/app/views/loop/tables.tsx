import { memo } from 'react'
import type { Design } from '../../../engine/supply/design.ts'
import { biasOf, leanInWords, trimOf } from '../../../engine/supply/loop/index.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { show, showPercent, showRange } from '../../fields/show.ts'
import { loopStrings } from '../../strings/loop.ts'

/** Range of the trimmer, and where the output may lie. */
export const Trim = memo(({ design }: { design: Design }) => {
  const words = loopStrings.trim
  const trim = trimOf(design)
  const { range, worst } = trim
  const rows: [string, string][] = trim.trimmed
    ? [
        [words.rows.asked, showRange(design.need.trimLow_V, design.need.trimHigh_V, 'V')],
        [words.rows.range, showRange(range.lowest_V, range.highest_V, 'V')],
        [words.rows.certain, showRange(range.certainLow_V, range.certainHigh_V, 'V')],
        [words.rows.worst, showRange(worst.minimum, worst.maximum, 'V')],
      ]
    : [[words.rows.worstFixed, showRange(worst.minimum, worst.maximum, 'V')]]
  rows.push([words.rows.sensitivity, showPercent(0.01 * trim.sensitivity)])
  const falls =
    trim.trimmed &&
    (range.certainLow_V > design.need.trimLow_V || range.certainHigh_V < design.need.trimHigh_V)
  return (
    <section>
      <h3>{words.title}</h3>
      <table className="budget">
        <tbody>
          {rows.map(([name, value]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {falls && <p>{words.falls(show(range.certainLow_V, 'V', 4), show(range.certainHigh_V, 'V', 4))}</p>}
      <p className="lead">{trim.openWiper ? trim.openWiper.note : words.noTrimmer}</p>
    </section>
  )
})

/** Currents of LED and reference over the optocoupler's spread, and the test that shows them. */
export const Bias = memo(({ design }: { design: Design }) => {
  const words = loopStrings.bias
  const { answer, backFeed, rows } = biasOf(design)
  const amps = (a: number) => show(a, 'A', 2)
  return (
    <section>
      <h3>{words.title}</h3>
      <p className="lead">
        {words.lead(
          show(design.feedback.ledResistor_ohm, 'Ω'),
          show(answer.ledResistorMinimum_ohm, 'Ω', 2),
          show(answer.ledResistorMaximum_ohm, 'Ω', 2),
          show(answer.headroom_V, 'V', 2),
        )}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the table is wider than the screen and scrolls by keys too */}
      <section className="table-scroll" tabIndex={0} aria-label={words.title}>
        <table className="budget loop-bias">
          <thead>
            <tr>
              <th scope="col">{words.with}</th>
              <th scope="col">{words.ratio}</th>
              <th scope="col">{words.noPower}</th>
              <th scope="col">{words.fullPower}</th>
              <th scope="col">{words.cathode}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={leanInWords(row.lean)}>
                <th scope="row">
                  <StandingMark
                    state={row.holds ? 'holds' : 'over'}
                    label={row.holds ? words.holds : words.short}
                  />{' '}
                  {leanInWords(row.lean)}
                </th>
                <td>
                  {show(row.ratioFullPower, '%', 2)} … {show(row.ratioNoPower, '%', 2)}
                </td>
                <td>{amps(row.ledNoPower_A)}</td>
                <td>{amps(row.ledFullPower_A)}</td>
                <td>
                  {amps(row.cathodeLeast_A)}, {show(row.cathodeLeast_V, 'V', 2)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {answer.warnings.map((warning) => (
        <p key={warning} className="loop-warning">
          {warning}
        </p>
      ))}
      <p className="caution">
        {words.backFeed(show(backFeed.dark_V, 'V'), show(backFeed.lit_V, 'V'), amps(backFeed.lit_A))}
      </p>
    </section>
  )
})
