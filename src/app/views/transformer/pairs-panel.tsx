import { memo, useMemo } from 'react'
import type { WindingName } from '../../../engine/supply/build.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { coilFacts } from '../../../engine/supply/transformer/index.ts'
import { show } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import type { Fields } from './use-fields.ts'

const words = transformerStrings.pairs
const windingName = (name: string): string => transformerStrings.windings[name as WindingName] ?? name

/** Coupling, leakage, capacitance and insulation of every pair of windings, and resistance by frequency. */
export const PairsPanel = memo(({ design, fields }: { design: Design; fields: Fields }) => {
  const facts = useMemo(() => coilFacts(design), [design])
  const { answer } = fields
  const entry = (matrix: readonly number[], from: string, to: string): number => {
    const at = answer?.inductances.windings ?? []
    return matrix[at.indexOf(from) * at.length + at.indexOf(to)] ?? Number.NaN
  }
  return (
    <section className="pairs" data-stale={!fields.fresh || undefined}>
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div className="table-scroll">
        <table className="reading-table pair-table">
          <thead>
            <tr>
              <th scope="col">{words.pair}</th>
              <th scope="col">{words.coupling}</th>
              <th scope="col">{words.leakage}</th>
              <th scope="col">{words.capacitance}</th>
              <th scope="col">{words.tape}</th>
              <th scope="col">{words.surface}</th>
              <th scope="col">{words.core}</th>
            </tr>
          </thead>
          <tbody>
            {facts.pairs.map((pair) => (
              <tr key={`${pair.from}-${pair.to}`}>
                <th scope="row">
                  {windingName(pair.from)}, {windingName(pair.to).toLowerCase()}
                </th>
                <td>{answer ? entry(answer.inductances.coupling, pair.from, pair.to).toFixed(4) : '…'}</td>
                <td>{answer ? show(entry(answer.inductances.leakage_H, pair.from, pair.to), 'H') : '…'}</td>
                <td>{pair.capacitance_F > 0 ? show(pair.capacitance_F, 'F', 2) : '–'}</td>
                <td>
                  {words.layers(pair.tapeLayers)}, {show(pair.tape_m, 'm', 2)}
                  {pair.reinforcedWire && <small>{words.reinforced}</small>}
                  {pair.shielded && <small>{words.shielded}</small>}
                </td>
                <td>{show(pair.surface_m, 'm')}</td>
                <td>{show(pair.throughCore_m, 'm')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <ul className="plain-list">
        {facts.self
          .filter((own) => own.toAndFro_F > 0)
          .map((own) => (
            <li key={own.winding}>
              {words.self(
                windingName(own.winding),
                show(own.toAndFro_F, 'F', 2),
                show(own.sameSide_F, 'F', 2),
              )}
            </li>
          ))}
      </ul>
      <p className="caution">{words.caution}</p>
    </section>
  )
})

const shownHarmonics = [1, 2, 3, 5, 10, 20]

/** Winding resistance at dc and at harmonics, and what each harmonic costs. */
export const ResistancePanel = memo(({ fields }: { fields: Fields }) => {
  const { answer } = fields
  if (answer === null) return null
  const text = transformerStrings.resistance
  const { copper, inductances } = answer
  return (
    <section className="pairs" data-stale={!fields.fresh || undefined}>
      <h3>{text.title}</h3>
      <p className="lead">{text.lead(show(answer.temperature_C.field, '°C'))}</p>
      <div className="table-scroll">
        <table className="reading-table pair-table">
          <thead>
            <tr>
              <th scope="col">{text.winding}</th>
              <th scope="col">{text.dc}</th>
              {shownHarmonics.map((n) => (
                <th scope="col" key={n}>
                  {text.at(n)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {inductances.windings.map((winding, w) => (
              <tr key={winding}>
                <th scope="row">{windingName(winding)}</th>
                <td>{show(copper.dcResistance_ohm[w]!, 'Ω')}</td>
                {shownHarmonics.map((n) => (
                  <td key={n}>{show(copper.acResistance_ohm[w]![n - 1]!, 'Ω')}</td>
                ))}
              </tr>
            ))}
            <tr>
              <th scope="row">{text.loss}</th>
              <td>{show(copper.dc_W, 'W', 2)}</td>
              {shownHarmonics.map((n) => (
                <td key={n}>{show(copper.harmonics_W[n - 1]!, 'W', 2)}</td>
              ))}
            </tr>
          </tbody>
        </table>
      </div>
    </section>
  )
})

/** Part of the copper loss above which the gap's field is worth an effort. */
const muchGapLoss = 0.1

/** What the field of the gap costs in copper, and what would win it back. */
export const GapLossPanel = memo(({ fields }: { fields: Fields }) => {
  const { gap, answer } = fields
  if (gap === null || answer === null) return null
  const text = transformerStrings.gapLoss
  const share = answer.currents.share
  const much = (gap.asBuilt_W - gap.evenGap_W) * share > muchGapLoss * answer.copper.total_W
  return (
    <section data-stale={!fields.complete || undefined}>
      <h3>{text.title}</h3>
      <p className="lead">
        {text.lead(
          show(gap.asBuilt_W * share, 'W'),
          show(gap.evenGap_W * share, 'W'),
          show(gap.spreadGap_W * share, 'W'),
        )}
      </p>
      <p className="lead">{much ? text.much : text.little}</p>
    </section>
  )
})
