import { memo } from 'react'
import { conditionById } from '../../../engine/supply/condition.ts'
import { at, type Evaluation } from '../../../engine/supply/evaluation.ts'
import { infoOf, type ReadingKey } from '../../../engine/supply/reading.ts'
import { show } from '../../fields/show.ts'
import { useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'
import { ConditionPlate, conditionStore, reasonAt } from './condition-plate.tsx'

const words = benchStrings.figures

const live: readonly ReadingKey[] = [
  'bulkMinimum_V',
  'duty',
  'primaryPeak_A',
  'fluxPeak_T',
  'drainPeak_V',
  'clamp_W',
  'secondary_Arms',
  'rectifierReversePeak_V',
  'outputRipple_Vpp',
  'bias_V',
  'loss_W',
  'efficiency',
]

/** The numbers that a builder asks for first: what to wind, and what it does at the condition on show. */
export const KeyFigures = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const condition = useStore(conditionStore, (c) => c)
  const there = at(evaluation, condition)
  const t = evaluation.design.transformer
  const wound = [
    [words.turns, `${t.primaryTurns} : ${t.secondaryTurns} : ${t.biasTurns}`],
    [words.inductance, show(t.primaryInductance_H.typical, 'H')],
    [t.gapPlace === 'post' ? words.gapPost : words.gapLegs, show(t.gap_m, 'm')],
    [words.reflected, show(t.reflectedVoltage_V, 'V')],
    [words.leakage, show(t.leakage_H.typical, 'H')],
  ] as const
  return (
    <div className="figures">
      <dl className="figures-wound">
        {wound.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <div className="figures-where">
        <ConditionPlate />
        <p className="figures-condition">{conditionById.get(condition)?.label}</p>
      </div>
      {there === null ? (
        <p className="problem">{reasonAt(evaluation, condition)}</p>
      ) : (
        <dl className="figures-live">
          {live.map((key) => {
            const { label, unit } = infoOf(key)
            return (
              <div key={key}>
                <dt>{label}</dt>
                <dd>{show(there.readings[key], key === 'efficiency' || key === 'duty' ? '%' : unit)}</dd>
              </div>
            )
          })}
        </dl>
      )}
    </div>
  )
})
