import { useId, useState } from 'react'
import { marginFromRinging, ringingAdvice } from '../../../engine/loop/index.ts'
import { parseQuantity } from '../../../engine/quantity/index.ts'
import type { CornerWithMargins } from '../../../engine/supply/loop/index.ts'
import { loopStrings } from '../../strings/loop.ts'
import { degrees, hertz } from './words.ts'

const words = loopStrings.ringing

/** Beyond this ratio to the computed crossover the ringing is hardly of this loop. */
const farRatio = 3

/** What was counted on the scope, as a band of phase margin and what to change. */
export const Ringing = ({ corner }: { corner: CornerWithMargins | null }) => {
  const [frequency, setFrequency] = useState('')
  const [cycles, setCycles] = useState('')
  const [endless, setEndless] = useState(false)
  const id = useId()
  const f = frequency.trim() === '' ? null : parseQuantity(frequency, 'Hz')
  const count = Number(cycles.replace(',', '.'))
  const given = cycles.trim() !== ''
  const good = count >= 0.1 && count <= 200
  const counted = given && good ? marginFromRinging(count) : null
  const band = endless ? { low_deg: 0, high_deg: 0 } : counted
  const m = corner?.margins
  const far =
    f?.ok && m?.ok && f.value > 0 ? Math.abs(Math.log(f.value / m.crossover_Hz)) > Math.log(farRatio) : false
  return (
    <section className="loop-ringing">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <p className="loop-asked">
        <label htmlFor={`${id}-f`}>{words.frequency}</label>
        <input
          id={`${id}-f`}
          className="value"
          value={frequency}
          placeholder="5 kHz"
          autoComplete="off"
          onChange={(event) => setFrequency(event.target.value)}
        />
        <label htmlFor={`${id}-n`}>{words.cycles}</label>
        <input
          id={`${id}-n`}
          className="value"
          value={cycles}
          placeholder="4"
          inputMode="decimal"
          autoComplete="off"
          disabled={endless}
          onChange={(event) => setCycles(event.target.value)}
        />
      </p>
      <p>
        <label>
          <input type="checkbox" checked={endless} onChange={(event) => setEndless(event.target.checked)} />{' '}
          {words.endless}
        </label>
      </p>
      <div role="status">
        {((given && !good && !endless) || (f && !f.ok)) && <p className="problem">{words.needs}</p>}
        {band && (
          <>
            <p>
              <b>{endless ? words.sings : words.says(degrees(band.low_deg), degrees(band.high_deg))}</b>{' '}
              {m?.ok && words.expects(degrees(m.phaseMargin_deg), hertz(m.crossover_Hz))}
            </p>
            <ul>
              {ringingAdvice(band).map((line) => (
                <li key={line}>{line}</li>
              ))}
              {far && <li>{words.far}</li>}
            </ul>
          </>
        )}
      </div>
    </section>
  )
}
