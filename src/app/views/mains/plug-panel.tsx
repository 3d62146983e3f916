import { touchLimits_Arms } from '../../../engine/mains/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { prospective_A, surge_V } from '../../../engine/supply/mains-side/index.ts'
import { show, showPercent } from '../../fields/show.ts'
import { mainsStrings } from '../../strings/mains.ts'
import type { MainsAnswer } from './answers.ts'
import { Facts } from './facts.tsx'

const words = mainsStrings.inrush

/** Inrush from cold and warm, and what the fuse makes of it. */
export const InrushPanel = ({ evaluation, answer }: { evaluation: Evaluation; answer: MainsAnswer }) => {
  const { parts } = evaluation.design
  const { plugIns, fuse } = answer
  return (
    <section>
      <h3>{words.title}</h3>
      <p className="lead">
        {words.lead} {parts.ntc ? words.warm : words.none}
      </p>
      <div className="table-scroll">
        <table className="reading-table mains-table">
          <thead>
            <tr>
              <th scope="col">{words.start}</th>
              <th scope="col">{words.thermistor}</th>
              <th scope="col">{words.peak}</th>
              <th scope="col">{words.integral}</th>
            </tr>
          </thead>
          <tbody>
            {plugIns.map((start) => (
              <tr key={String(start.pause_s)}>
                <th scope="row">
                  {start.pause_s === null
                    ? words.cold
                    : start.pause_s === 0
                      ? words.at
                      : words.after(show(start.pause_s, 's', 2))}
                </th>
                <td>
                  {parts.ntc
                    ? `${show(start.thermistor_C, '°C')}, ${show(start.thermistor_ohm, 'Ω', 2)}`
                    : '–'}
                </td>
                <td>{show(start.peak_A, 'A', 2)}</td>
                <td>{show(start.integral_A2s, 'A²s', 2)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <h4>{words.fuse}</h4>
      {fuse === null ? (
        <p className="problem">{words.noFuse}</p>
      ) : (
        <Facts
          of={[
            [words.fuseUse.current, showPercent(fuse.currentUse)],
            [words.fuseUse.pulse, showPercent(fuse.pulseUse)],
            [words.fuseUse.breaking(show(prospective_A, 'A')), showPercent(fuse.breakingUse)],
          ]}
        />
      )}
    </section>
  )
}

/** What lies straight across the mains or across the barrier. */
export const PlugPanel = ({ evaluation, answer }: { evaluation: Evaluation; answer: MainsAnswer }) => {
  const text = mainsStrings.plug
  const { parts } = evaluation.design
  const { bleed, surge } = answer
  return (
    <section>
      <h3>{text.title}</h3>
      {bleed === null ? (
        <p>{text.noX}</p>
      ) : (
        <Facts
          of={[
            [text.bleed, bleed.resistor_ohm > 0 ? show(bleed.resistor_ohm, 'Ω') : '–'],
            [text.bleedShare, show(bleed.byShare_ohm, 'Ω', 2)],
            [text.bleed60, show(bleed.by60V_ohm, 'Ω', 2)],
            [text.bleedLoss, show(bleed.loss_W, 'W', 2)],
          ]}
        />
      )}
      {parts.yCapacitor === null ? (
        <p>{text.noY}</p>
      ) : (
        <Facts
          of={[
            [text.touch, show(evaluation.fixed.touchCurrent_Arms, 'A', 2)],
            [text.touchLimit, show(touchLimits_Arms.unearthed, 'A', 2)],
            [text.touchEarthed, show(touchLimits_Arms.earthed, 'A', 2)],
          ]}
        />
      )}
      <Facts
        of={[
          [
            text.surge(show(surge_V, 'V')),
            surge ? text.lets(show(surge.letThrough_V, 'V'), show(surge.current_A, 'A', 2)) : text.noVaristor,
          ],
        ]}
      />
    </section>
  )
}
