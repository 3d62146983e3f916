import { useMemo } from 'react'
import { barrierPicture, type Crossing } from '../../../drawing/first-light/barrier.ts'
import {
  type BarrierLink,
  requiredDistances,
  spacingOuterUncoated,
  strengthTest,
  trackWidth,
} from '../../../engine/insulation/index.ts'
import { barrierOf } from '../../../engine/papers/barrier.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { ReadingKey } from '../../../engine/supply/reading.ts'
import { insulationBasis } from '../../../engine/supply/resolve/margin.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { StandingMark } from '../../controls/gauge.tsx'
import { show } from '../../fields/show.ts'
import { mainsStrings } from '../../strings/mains.ts'
import { steadyMost } from './answers.ts'
import { BarrierMeasured } from './barrier-measured.tsx'

const words = mainsStrings.barrier

const references: Partial<Readonly<Record<BarrierLink['link'], string>>> = {
  optocoupler: 'U2',
  'optocoupler strength': 'U2',
  'Y capacitor': 'C12',
  margin: 'T1',
  tape: 'T1',
  wire: 'T1',
  sleeving: 'T1',
  'pin row': 'T1',
  'core path': 'T1',
}

/** One side of a link in words. */
const sideWords = ({ link, unit, quantity }: BarrierLink, value: number): string => {
  if (unit === 'm') return show(value, 'm', 2)
  if (unit === 'V') return show(value, 'V')
  if (unit === 'layers') return words.layers(value)
  if (link === 'Y capacitor') return words.yClasses[value] ?? ''
  return quantity.includes('(1 yes)') ? (words.yesNo[value] ?? '') : (words.classes[value] ?? '')
}

/** What is counted, without the key to the numbers, which are shown as words. */
const countedWords = ({ quantity }: BarrierLink): string => quantity.replace(/ \([^)]*\)/, '')

/** Every link between primary and secondary, required by the guide against this build, drawn and listed. */
export const BarrierPanel = ({ evaluation }: { evaluation: Evaluation }) => {
  const { design } = evaluation
  const basis = insulationBasis(design.need, design.transformer.reflectedVoltage_V)
  const need = requiredDistances(basis)
  const walk = useMemo(() => barrierOf(design), [design])
  const noY = design.parts.yCapacitor === null
  const links = walk.links.filter((l) => !(noY && l.link === 'Y capacitor'))
  const achieved = (link: BarrierLink): string =>
    link.verdict === 'not stated'
      ? words.verdicts['not stated']
      : words.ofRequired(sideWords(link, link.achieved), sideWords(link, link.required))
  const short = links.filter((l) => l.verdict === 'short')
  const says = short.length === 0 ? words.allReached : words.someShort(short.map((l) => l.link).join(', '))
  const bulk_V = steadyMost(evaluation, 'bulkPeak_V')
  const node = barrierPicture({
    title: words.plot(says),
    primary: { name: words.primary, says: [show(basis.working_Vpeak, 'V'), show(basis.mains_Vrms, 'V')] },
    secondary: { name: words.secondary, says: [show(design.need.output_V, 'V')] },
    required: `${show(need.creepage_m, 'm', 2)}`,
    crossings: links.map(
      (link): Crossing => ({
        reference: references[link.link] ?? '',
        name: link.link,
        says: achieved(link),
        state: link.verdict === 'short' ? 'short' : link.verdict === 'not stated' ? 'to measure' : 'reached',
      }),
    ),
  })
  return (
    <section>
      <h3>{words.title}</h3>
      <p className="lead">
        {words.lead(
          show(need.clearance_m, 'm', 2),
          show(need.creepage_m, 'm', 2),
          show(strengthTest(need.impulse_V, basis.grade), 'V'),
        )}
      </p>
      <p className="hint">
        {words.basis(
          words.grades[basis.grade],
          basis.pollutionDegree,
          show(basis.mains_Vrms, 'V'),
          show(basis.altitude_m, 'metre'),
        )}{' '}
        {words.working(show(basis.working_Vpeak, 'V'), show(basis.working_Vrms, 'V'))}{' '}
        {words.solved(show(bulk_V + design.transformer.reflectedVoltage_V, 'V'))}
      </p>
      <p>
        <b>{says}</b>
      </p>
      <div className="mains-chart">
        <Drawing node={node} />
      </div>
      <div className="table-scroll">
        <table className="reading-table mains-table mains-walk">
          <thead>
            <tr>
              <th scope="col">{words.link}</th>
              <th scope="col">{words.counted}</th>
              <th scope="col">{words.required}</th>
              <th scope="col">{words.achieved}</th>
              <th scope="col">{words.verdict}</th>
            </tr>
          </thead>
          <tbody>
            {walk.links.map((link) => {
              const none = noY && link.link === 'Y capacitor'
              return (
                <tr key={link.link}>
                  <th scope="row">{link.link}</th>
                  <td>{[countedWords(link), link.note].filter(Boolean).join('; ')}</td>
                  <td>{sideWords(link, link.required)}</td>
                  <td>
                    {none ? words.none : link.verdict === 'not stated' ? '–' : sideWords(link, link.achieved)}
                  </td>
                  <td>
                    {!none && (
                      <>
                        <StandingMark
                          state={
                            link.verdict === 'short'
                              ? 'over'
                              : link.verdict === 'not stated'
                                ? 'close'
                                : 'holds'
                          }
                          label=""
                        />{' '}
                        {words.verdicts[link.verdict]}
                      </>
                    )}
                  </td>
                </tr>
              )
            })}
          </tbody>
        </table>
      </div>
      <BarrierMeasured supply={design.supply} />
      <p className="caution">
        {words.caution} {mainsStrings.guide}
      </p>
    </section>
  )
}

const tracks = mainsStrings.tracks
const copper_m = 35e-6
const rise_K = 20
const narrowest_m = 0.3e-3
const widest_A = 35

/** Track widths by current, spacing by peak voltage. */
export const TracksPanel = ({ evaluation }: { evaluation: Evaluation }) => {
  const most = (key: ReadingKey): number => steadyMost(evaluation, key)
  const widths: [string, number][] = [
    [tracks.names.input, most('inputCurrent_Arms')],
    [tracks.names.primary, most('primary_Arms')],
    [tracks.names.secondary, most('secondary_Arms')],
    [tracks.names.output, most('output_A')],
  ]
  const spacings: [string, number][] = [
    [tracks.spacings.mains, most('bulkPeak_V')],
    [tracks.spacings.drain, most('drainPeak_V')],
    [tracks.spacings.rectifier, most('rectifierReversePeak_V')],
  ]
  return (
    <section>
      <h3>{tracks.title}</h3>
      <p className="lead">{tracks.lead}</p>
      <div className="mains-pair">
        <table className="reading-table mains-table">
          <thead>
            <tr>
              <th scope="col">{tracks.track}</th>
              <th scope="col">{tracks.current}</th>
              <th scope="col">{tracks.width}</th>
            </tr>
          </thead>
          <tbody>
            {widths.map(([name, current]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{show(current, 'A', 2)}</td>
                <td>
                  {show(
                    Math.max(
                      narrowest_m,
                      trackWidth(Math.min(widest_A, current), rise_K, copper_m, 'external'),
                    ),
                    'm',
                    2,
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <table className="reading-table mains-table">
          <thead>
            <tr>
              <th scope="col">{tracks.between}</th>
              <th scope="col">{tracks.peak}</th>
              <th scope="col">{tracks.keep}</th>
            </tr>
          </thead>
          <tbody>
            {spacings.map(([name, peak]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{show(peak, 'V')}</td>
                <td>{show(spacingOuterUncoated(peak), 'm', 2)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="hint">{tracks.more}</p>
    </section>
  )
}
