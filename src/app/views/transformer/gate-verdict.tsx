import type { Gate } from '../../../engine/bench/index.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import { sentence } from './sentence.ts'
import './transformer.css'

const words = transformerStrings.bench

/** Accept, adjust or reject, with reasons and what to do, least work first. */
export const GateVerdict = ({ gate }: { gate: Gate }) => (
  <section className="gate" data-verdict={gate.verdict} role="status" aria-label={words.verdict}>
    <p className="gate-verdict">{words.verdicts[gate.verdict]}</p>
    {gate.verdict !== 'nothing measured' && (
      <ul className="plain-list">
        {gate.reasons.map((reason) => (
          <li key={reason}>{sentence(reason)}</li>
        ))}
      </ul>
    )}
    {gate.fixes.length > 0 && (
      <>
        <h4>{words.fixes}</h4>
        <ol className="gate-fixes">
          {gate.fixes.map((fix) => (
            <li key={fix.what}>
              <b>{words.effort[fix.effort]}</b> {fix.what}
            </li>
          ))}
        </ol>
      </>
    )}
  </section>
)
