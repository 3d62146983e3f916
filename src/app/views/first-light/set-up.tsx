import { instruments, type Plan } from '../../../engine/bench/index.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { choose } from './choices.ts'
import { setOwned } from './record.ts'
import type { AtHand } from './use-plan.ts'

const words = firstLightStrings.bench

/** Instruments owned, lamp and first chip: stated once, used by every check. */
export const SetUp = ({ supply, atHand, plan }: { supply: Supply; atHand: AtHand; plan: Plan | null }) => {
  const owned = new Set(supply.bench.instruments)
  const { lamps, lamp, smaller, chip } = atHand
  const begun = supply.bench.log.length > 0 || supply.bench.ticked.length > 0
  return (
    <details className="fl-setup" open={!begun || undefined}>
      <summary>
        <h3>{words.title}</h3>
      </summary>
      <p className="lead">{words.lead}</p>
      <ul className="fl-instruments">
        {instruments.map(({ id, name, note }) => (
          <li key={id}>
            <label>
              <input
                type="checkbox"
                className="check"
                checked={owned.has(id)}
                onChange={(event) => setOwned(supply.id, id, event.target.checked)}
              />
              <span>
                {name}
                <small>{note}</small>
              </span>
            </label>
          </li>
        ))}
      </ul>
      <div className="fl-choices">
        {lamps.length > 0 ? (
          <label>
            <span>{words.lamp}</span>
            <select
              className="choice"
              value={lamp?.id ?? ''}
              onChange={(event) => choose(supply.id, { lamp: event.target.value || null })}
            >
              <option value="">
                {words.lampAuto(plan ? `${plan.lamp.power_W} W, ${plan.lamp.voltage_V} V` : '…')}
              </option>
              {lamps.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        ) : (
          <p>{words.noLamps}</p>
        )}
        {smaller.length > 0 ? (
          <label>
            <span>{words.smaller}</span>
            <select
              className="choice"
              value={chip?.id ?? 'none'}
              onChange={(event) => choose(supply.id, { smaller: event.target.value })}
            >
              <option value="none">{words.smallerNone}</option>
              {smaller.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        ) : (
          <p>{words.noSmaller}</p>
        )}
      </div>
    </details>
  )
}
