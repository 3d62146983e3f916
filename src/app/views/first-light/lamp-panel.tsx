import { useMemo, useState } from 'react'
import { lampPlot } from '../../../drawing/first-light/lamp-plot.ts'
import { firstLightStyle } from '../../../drawing/first-light/style.ts'
import { loopStyle } from '../../../drawing/loop/style.ts'
import { lampGlow } from '../../../engine/mains/lamp.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { show, showPercent } from '../../fields/show.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { type LampCase, lampCases, type PlanAnswer } from './messages.ts'

const words = firstLightStrings.lamp

/** Where the look of a filament changes, K: as `lampGlow` has it. */
const looks = [0, 900, 1300, 1900, 2500] as const

/** What bulk and filament do in the first seconds behind the lamp, for a healthy unit and two sick ones. */
export const LampPanel = ({ answer, start_V }: { answer: PlanAnswer; start_V: number }) => {
  adoptStyle(loopStyle)
  adoptStyle(firstLightStyle)
  const [shown, setShown] = useState<LampCase>('healthy')
  const { plan, traces } = answer
  const { lamp } = plan
  const trace = traces[shown]
  const node = useMemo(() => {
    if (!trace) return null
    const last = trace.bulk_V[trace.bulk_V.length - 1]!
    const hottest = trace.filament_K.reduce((a, b) => Math.max(a, b), 0)
    const look = words.looks[lampGlow(hottest)]
    return lampPlot({
      title: words.plot(words.cases[shown].toLowerCase(), show(last, 'V'), `${show(hottest, 'K')} (${look})`),
      bulkHeading: words.bulk,
      filamentHeading: words.filament,
      ...trace,
      start_V,
      startWords: `${words.start}, ${show(start_V, 'V')}`,
      looks: looks.map((from_K) => ({ from_K, words: words.looks[lampGlow(from_K + 1)] })),
      showTime: (t) => show(t, 's', 2),
      showVoltage: (v) => show(v, 'V', 3),
      showTemperature: (k) => show(k, 'K', 2),
    })
  }, [trace, shown, start_V])
  return (
    <section className="fl-panel">
      <h4>{words.title}</h4>
      <dl className="figures-live fl-figures">
        <div>
          <dt>{words.flash}</dt>
          <dd>
            {lamp.flash_s > 0
              ? `${words.looks[lampGlow(lamp.flash_K)]}, ${show(lamp.flash_s, 's', 2)}`
              : words.noFlash}
          </dd>
        </div>
        <div>
          <dt>{words.idleBulk}</dt>
          <dd>{show(lamp.idleBulk_V, 'V')}</dd>
        </div>
        <div>
          <dt>{words.takesOver}</dt>
          <dd>{lamp.takeOver >= 1 ? words.wholeLoad : words.ofLoad(showPercent(lamp.takeOver))}</dd>
        </div>
        <div>
          <dt>{words.intoShort}</dt>
          <dd>{show(lamp.shortCurrent_Arms, 'A', 2)}</dd>
        </div>
      </dl>
      <fieldset className="fl-cases">
        <legend className="unseen">{words.choose}</legend>
        {lampCases.map((name) => (
          <button
            key={name}
            type="button"
            className="plate-cell"
            aria-pressed={name === shown}
            disabled={!traces[name]}
            onClick={() => setShown(name)}
          >
            {words.cases[name]}
          </button>
        ))}
      </fieldset>
      {node && (
        <figure>
          <div className="fl-chart">
            <Drawing node={node} />
          </div>
          <figcaption>{words.caption}</figcaption>
        </figure>
      )}
    </section>
  )
}
