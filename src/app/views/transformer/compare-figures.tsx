import type { ConditionId } from '../../../engine/supply/condition.ts'
import { at, type Evaluation, greatest } from '../../../engine/supply/evaluation.ts'
import { coilFacts, type TransformerAnswer } from '../../../engine/supply/transformer/index.ts'
import { show, showPercent } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import type { Fields } from './use-fields.ts'

const words = transformerStrings.change

interface FigureRow {
  readonly id: string
  readonly label: string
  readonly unit: string
  readonly now: number
  readonly field: ((answer: TransformerAnswer) => number) | null
  readonly why: string | null
}

/** Figures that an order of layers moves, in closed form at a condition; those that the field knows too say how. */
const figures = (evaluation: Evaluation, condition: ConditionId): FigureRow[] => {
  const { design } = evaluation
  const there = at(evaluation, condition)?.readings
  const facts = coilFacts(design)
  const { layout } = design.transformer.coil
  const foil = Object.values(layout.input.wires).some(({ wire }) => wire.construction === 'foil')
  const between = facts.pairs.find((pair) => [pair.from, pair.to].sort().join() === 'primary,secondary')
  const row = (
    id: string,
    label: string,
    unit: string,
    now: number | undefined,
    field: FigureRow['field'] = null,
    why: string | null = null,
  ): FigureRow => ({ id, label, unit, now: now ?? Number.NaN, field, why })
  return [
    row(
      'leakage',
      words.leakage,
      'H',
      design.transformer.coil.leakage_H,
      (a) => a.leakage_H.field,
      words.why.leakage,
    ),
    row('between', words.between, 'F', between?.capacitance_F),
    row('self', words.self, 'F', facts.self.find((s) => s.winding === 'primary')?.toAndFro_F),
    row(
      'copper',
      words.copper,
      'W',
      there && there.primaryCopper_W + there.secondaryCopper_W + there.biasCopper_W,
      (a) => a.copper_W.field,
      foil ? words.why.foil : words.why.copper,
    ),
    row('core', words.core, 'W', there?.core_W, (a) => a.core_W.field, words.why.core),
    row(
      'clamp',
      words.clamp,
      'W',
      there?.clamp_W,
      design.transformer.measured.leakage ? null : (a) => a.clamp_W.field,
      words.why.clamp,
    ),
    row('drain', words.drain, 'V', greatest(evaluation, 'drainPeak_V')?.readings.drainPeak_V),
    row('warm', words.warm, '°C', there?.transformer_C, (a) => a.temperature_C.field, words.why.temperature),
    row('fill', words.fill, '%', layout.fill),
  ]
}

/** Nothing is a dash: one layer alone has no capacitance to itself. */
const shown = (value: number, unit: string): string => (value > 0 ? show(value, unit) : '–')

/** Difference above which the reason is told. */
const tellAbove = 0.05

/** The figures before the last change and now, in closed form at once, and by the field when it is there. */
export const CompareFigures = ({
  evaluation,
  before,
  condition,
  fields,
  forget,
}: {
  evaluation: Evaluation
  before: Evaluation
  condition: ConditionId
  fields: Fields
  forget: () => void
}) => {
  const now = figures(evaluation, condition)
  const then = new Map(figures(before, condition).map((row) => [row.id, row.now]))
  const answer = fields.answer
  const off = (row: FigureRow): number =>
    row.field === null || answer === null ? 0 : row.now / row.field(answer) - 1
  const told = fields.fresh ? now.filter((row) => Math.abs(off(row)) > tellAbove) : []
  return (
    <section className="compare-figures">
      <h3>{words.title}</h3>
      <table className="reading-table">
        <thead>
          <tr>
            <th scope="col">{words.quantity}</th>
            <th scope="col">{words.before}</th>
            <th scope="col">{words.now}</th>
            <th scope="col">{words.by}</th>
            <th scope="col">{words.field}</th>
          </tr>
        </thead>
        <tbody>
          {now.map((row) => {
            const was = then.get(row.id) ?? row.now
            const change = row.unit === '°C' || was === 0 ? row.now - was : row.now / was - 1
            const moved = Math.abs(row.now - was) > 5e-4 * Math.abs(was)
            return (
              <tr key={row.id} data-figure={row.id} data-moved={moved || undefined}>
                <th scope="row">{row.label}</th>
                <td>{shown(was, row.unit)}</td>
                <td className="reading-value">{shown(row.now, row.unit)}</td>
                <td>
                  {!moved || was === 0
                    ? ''
                    : row.unit === '°C'
                      ? `${change > 0 ? '+' : ''}${show(change, 'K', 2)}`
                      : `${change > 0 ? '+' : ''}${showPercent(change)}`}
                </td>
                <td data-stale={!fields.fresh || undefined}>
                  {row.field === null ? '' : answer === null ? '…' : show(row.field(answer), row.unit)}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
      {answer && (
        <p className="beside" data-stale={!fields.fresh || undefined}>
          {words.leakageAll}: <b>{show(answer.inductances.leakageAllShorted_H, 'H')}</b>
        </p>
      )}
      {told.length > 0 && (
        <ul className="reasons">
          {told.map((row) => (
            <li key={row.id}>
              {row.why} <span className="reasons-by">({words.over(showPercent(Math.abs(off(row))))})</span>
            </li>
          ))}
        </ul>
      )}
      {evaluation.design.transformer.measured.leakage && <p className="beside">{words.measuredLeakage}</p>}
      <button type="button" className="plain" onClick={forget}>
        {words.forget}
      </button>
    </section>
  )
}
