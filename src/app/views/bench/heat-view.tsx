import { memo } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { at } from '../../../engine/supply/evaluation.ts'
import { infoOf, type ReadingKey } from '../../../engine/supply/reading.ts'
import { fitted, reference } from '../../../engine/supply/refs.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { standing } from '../../state/limits.ts'
import { useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'
import { limitStrings } from '../../strings/limits.ts'
import { ConditionPlate, conditionStore, reasonAt } from './condition-plate.tsx'

const words = benchStrings.heat

const losses: readonly ReadingKey[] = [
  'bridge_W',
  'ntc_W',
  'fuse_W',
  'bleed_W',
  'bulkCapacitor_W',
  'switchConduction_W',
  'switchTransition_W',
  'switchCapacitive_W',
  'control_W',
  'core_W',
  'primaryCopper_W',
  'secondaryCopper_W',
  'biasCopper_W',
  'clamp_W',
  'clampDiode_W',
  'rectifierConduction_W',
  'rectifierSwitching_W',
  'snubber_W',
  'outputCapacitor_W',
  'choke_W',
  'biasDiode_W',
  'feedback_W',
  'indicator_W',
]

const temperatures: readonly ReadingKey[] = [
  'switchJunction_C',
  'rectifierJunction_C',
  'transformer_C',
  'clampResistor_C',
  'clampAvalanche_C',
  'outputCapacitor_C',
  'bridgeJunction_C',
]

const Bar = ({ of, state }: { of: number; state?: string }) => (
  <svg className="bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true" data-state={state}>
    <rect className="bar-full" width="100" height="6" />
    <rect className="bar-part" width={Math.min(Math.max(of, 0), 1) * 100} height="6" />
  </svg>
)

/** Loss by place, adding up to input less output, and the temperatures that follow from it. */
export const HeatView = memo(
  ({ evaluation, limits }: { evaluation: Evaluation; limits: readonly Limit[] }) => {
    const condition = useStore(conditionStore, (c) => c)
    const there = at(evaluation, condition)
    if (there === null)
      return (
        <div className="heat">
          <ConditionPlate />
          <p className="problem">{reasonAt(evaluation, condition)}</p>
        </div>
      )
    const { readings } = there
    const items = losses
      .map((key) => ({ key, loss_W: readings[key] }))
      .filter(({ loss_W }) => loss_W > 0)
      .sort((a, b) => b.loss_W - a.loss_W)
    const most = items[0]?.loss_W ?? 1
    const ambient = evaluation.design.need.ambient_C
    return (
      <div className="heat">
        <ConditionPlate />
        <section>
          <h3>{words.title}</h3>
          <p className="lead">
            {words.lead(
              show(readings.input_W, 'W'),
              show(readings.output_W, 'W'),
              show(readings.efficiency, '%', 3),
            )}
          </p>
          <table className="budget">
            <thead className="unseen">
              <tr>
                <th scope="col">{words.quantity}</th>
                <td />
                <th scope="col">{words.loss}</th>
                <th scope="col">{words.share}</th>
              </tr>
            </thead>
            <tbody>
              {items.map(({ key, loss_W }) => {
                const { label, spot } = infoOf(key)
                return (
                  <tr key={key}>
                    <th scope="row">
                      <span className="part-ref">{reference[fitted(spot, evaluation.design.clamp)]}</span>{' '}
                      {label}
                    </th>
                    <td className="budget-bar">
                      <Bar of={loss_W / most} />
                    </td>
                    <td>{show(loss_W, 'W')}</td>
                    <td>{showPercent(loss_W / readings.loss_W)}</td>
                  </tr>
                )
              })}
            </tbody>
            <tfoot>
              <tr>
                <th scope="row">{words.sum}</th>
                <td />
                <td>{show(readings.loss_W, 'W')}</td>
                <td>{showPercent(1)}</td>
              </tr>
            </tfoot>
          </table>
        </section>
        <section>
          <h3>{words.temperatures}</h3>
          <p className="lead">{words.temperaturesLead(show(ambient, '°C'))}</p>
          <table className="budget">
            <thead className="unseen">
              <tr>
                <th scope="col">{words.quantity}</th>
                <td />
                <th scope="col">{infoOf('transformer_C').label}</th>
              </tr>
            </thead>
            <tbody>
              {temperatures
                .filter((key) => readings[key] > 0)
                .map((key) => {
                  const { label, spot } = infoOf(key)
                  const limit = limits.find(
                    (l) => l.spot === spot && l.unit === '°C' && l.sense === 'at-most',
                  )
                  const rating = limit?.rating ?? 150
                  const state = limit ? standing(limit) : 'holds'
                  return (
                    <tr key={key}>
                      <th scope="row">
                        <span className="part-ref">{reference[fitted(spot, evaluation.design.clamp)]}</span>{' '}
                        {label}
                      </th>
                      <td className="budget-bar">
                        <Bar of={(readings[key] - ambient) / (rating - ambient)} state={state} />
                      </td>
                      <td>
                        {limit && <StandingMark state={state} label={limitStrings[state]} />}{' '}
                        {show(readings[key], '°C')}
                      </td>
                      <td>{limit && `/ ${show(rating, '°C')}`}</td>
                    </tr>
                  )
                })}
            </tbody>
          </table>
          <p className="caution">{words.caution}</p>
        </section>
      </div>
    )
  },
)
