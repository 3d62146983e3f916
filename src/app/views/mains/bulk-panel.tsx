import { useMemo } from 'react'
import { lines } from '../../../drawing/first-light/lines.ts'
import { at, type Evaluation } from '../../../engine/supply/evaluation.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show } from '../../fields/show.ts'
import { mainsStrings } from '../../strings/mains.ts'
import type { MainsAnswer } from './answers.ts'
import { Facts } from './facts.tsx'

const words = mainsStrings.bulk
const degreesOf = (angle_rad: number): string => words.degrees(((angle_rad * 180) / Math.PI).toFixed(0))

/** Valley and crest over the input range, where it browns out, and the charging pulse at three inputs. */
export const BulkPanel = ({ evaluation, answer }: { evaluation: Evaluation; answer: MainsAnswer }) => {
  const { sweep, columns } = answer
  const { source } = evaluation.design.need
  const isMains = source.kind === 'mains'
  const lowest_V = isMains ? source.minimum_Vrms : source.minimum_V
  const nominal_V = isMains ? source.nominal_Vrms : source.nominal_V
  const brown = sweep.brownOut_V === null ? words.noHold : words.brownOut(show(sweep.brownOut_V, 'V'))
  const node = useMemo(() => {
    const { points } = sweep
    if (points.length < 2) return null
    const x = points.map((p) => p.input_V)
    const low = points.map((p) => p.bulk.minimum_V)
    const high = points.map((p) => p.bulk.maximum_V)
    return lines({
      title: words.plot(show(low[0]!, 'V'), show(high[high.length - 1]!, 'V'), brown),
      heading: words.heading,
      lines: [
        { name: words.crest, x, y: high, kind: 'line' },
        { name: words.valley, x, y: low, kind: 'line' },
        { name: words.needs, x, y: points.map((p) => p.dropOut_V), kind: 'second' },
      ],
      band: { x, low, high },
      levels: [
        { at: lowest_V, words: words.lowest, along: 'y' },
        { at: nominal_V, words: words.nominal, along: 'y' },
      ],
      x: { show: (v) => show(v, 'V') },
      y: { from: 0, show: (v) => show(v, 'V') },
    })
  }, [sweep, lowest_V, nominal_V, brown])
  const cell = (read: (column: NonNullable<(typeof columns)[number]>) => string) =>
    columns.map((column, k) => <td key={words.columns[k]}>{column ? read(column) : '–'}</td>)
  const rows = words.rows
  return (
    <section>
      <h3>{words.title}</h3>
      <p className="lead">
        {answer.nominal ? words.lead(show(answer.nominal.stage_W, 'W')) : words.collapses} {brown}
      </p>
      {node && (
        <div className="mains-chart">
          <Drawing node={node} />
        </div>
      )}
      {!isMains && <p>{words.direct}</p>}
      <div className="table-scroll">
        <table className="reading-table mains-table">
          <thead>
            <tr>
              <th scope="col">{words.quantity}</th>
              {words.columns.map((name) => (
                <th scope="col" key={name}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">{rows.input}</th>
              {cell((c) => show(c.input_V, 'V'))}
            </tr>
            <tr>
              <th scope="row">{rows.valley}</th>
              {cell((c) => show(c.readings.bulkMinimum_V, 'V'))}
            </tr>
            <tr>
              <th scope="row">{rows.crest}</th>
              {cell((c) => show(c.readings.bulkPeak_V, 'V'))}
            </tr>
            {isMains && (
              <>
                <tr>
                  <th scope="row">{rows.angle}</th>
                  {cell(({ operation: { input } }) =>
                    degreesOf(input.bulk.conductionEnd_rad - input.bulk.conductionStart_rad),
                  )}
                </tr>
                <tr>
                  <th scope="row">{rows.time}</th>
                  {cell((c) => show(c.operation.input.bulk.conductionTime_s, 's', 2))}
                </tr>
                <tr>
                  <th scope="row">{rows.peak}</th>
                  {cell((c) => show(c.operation.input.bulk.input_Apeak, 'A'))}
                </tr>
              </>
            )}
            <tr>
              <th scope="row">{rows.rms}</th>
              {cell((c) => show(c.operation.input.bulk.input_Arms, 'A'))}
            </tr>
            {isMains && (
              <>
                <tr>
                  <th scope="row">{rows.bridge}</th>
                  {cell((c) => show(c.operation.input.bulk.diode_Aaverage, 'A'))}
                </tr>
                <tr>
                  <th scope="row">{rows.factor}</th>
                  {cell((c) => c.operation.input.bulk.powerFactor.toFixed(2))}
                </tr>
              </>
            )}
            <tr>
              <th scope="row">{rows.holdUp}</th>
              {cell((c) => show(c.readings.holdUp_s, 's', 2))}
            </tr>
          </tbody>
        </table>
      </div>
    </section>
  )
}

const twoDigits = (value: number): string => String(Number(value.toPrecision(2)))

/** Hours in a year of running. */
const year_h = 8766

/** Ripple, heat and life of the bulk capacitor. */
export const CapacitorPanel = ({ evaluation, answer }: { evaluation: Evaluation; answer: MainsAnswer }) => {
  const readings = at(evaluation, 'nominal-100')?.readings
  const { life } = answer
  const text = mainsStrings.capacitor
  if (!readings || life === null) return null
  const { bridge: part } = evaluation.design.parts
  const bridge: [string, string][] =
    part === null
      ? []
      : [
          [
            text.bridge,
            text.bridgeSurge(show(evaluation.fixed.inrush_Apeak, 'A', 2), show(part.surge_A, 'A', 2)),
          ],
        ]
  return (
    <section>
      <h3>{text.title}</h3>
      <Facts
        of={[
          [text.line, show(readings.bulkRippleLine_Arms, 'A')],
          [text.switching, show(readings.bulkRippleSwitch_Arms, 'A')],
          [text.use, show(Math.round(100 * life.rippleUse) / 100, '%')],
          [text.core, show(life.core_C, '°C')],
          [
            text.life,
            `${text.hours(twoDigits(life.life_h / 1000))}, ${text.years(twoDigits(life.life_h / year_h))}`,
          ],
          ...bridge,
        ]}
      />
      <p className="hint">{text.note}</p>
    </section>
  )
}
