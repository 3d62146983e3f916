import type { ConditionId } from '../../../engine/supply/condition.ts'
import { conditionById } from '../../../engine/supply/condition.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { createStore, useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'

const words = benchStrings.condition
const inputs = ['minimum', 'nominal', 'maximum'] as const
const loads = [0, 10, 50, 100] as const
const corners = ['power-corner', 'flux-corner', 'overload-minimum', 'overload-maximum', 'short'] as const

/** The condition at which readings are shown, everywhere on the page. */
export const conditionStore = createStore<ConditionId>('nominal-100')

/** Why the supply does not run at a condition. */
export const reasonAt = (evaluation: Evaluation, id: ConditionId): string => {
  const there = evaluation.conditions.find((c) => c.condition.id === id)
  return there && !there.runs ? there.reason : ''
}

const Choice = ({ id, now, children }: { id: ConditionId; now: ConditionId; children: string }) => (
  <button
    type="button"
    className="plate-cell"
    aria-pressed={id === now}
    aria-label={conditionById.get(id)?.label}
    title={conditionById.get(id)?.label}
    onClick={() => conditionStore.set(() => id)}
  >
    {children}
  </button>
)

/** Inputs by loads as a small plate of keys, and the corners where tolerances lean beside it. */
export const ConditionPlate = () => {
  const now = useStore(conditionStore, (c) => c)
  return (
    <fieldset className="plate">
      <legend className="unseen">{words.label}</legend>
      <div className="plate-grid">
        {inputs.map((input) => (
          <div className="plate-row" key={input}>
            <span className="plate-name">
              {words.inputs[input]} {words.input.toLowerCase()}
            </span>
            {loads.map((load) => (
              <Choice key={load} id={`${input}-${load}`} now={now}>
                {`${load} %`}
              </Choice>
            ))}
          </div>
        ))}
      </div>
      <div className="plate-corners">
        {corners.map((corner) => (
          <Choice key={corner} id={corner} now={now}>
            {words.corner[corner]}
          </Choice>
        ))}
      </div>
    </fieldset>
  )
}
