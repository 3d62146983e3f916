import { type CornerWithMargins, compareProof } from '../../../engine/supply/loop/index.ts'
import { show } from '../../fields/show.ts'
import { loopStrings } from '../../strings/loop.ts'
import type { ProofState } from './use-proof.ts'
import { decibels, degrees } from './words.ts'

const words = loopStrings.proof

/** Starts a proof and says how far the switched circuit lies from the computed curve. */
export const ProofPanel = ({
  state,
  corner,
  prove,
}: {
  state: ProofState
  corner: CornerWithMargins | null
  prove: (corner: CornerWithMargins) => void
}) => {
  const stable = corner?.margins.ok === true && corner.margins.phaseMargin_deg > 0
  const fresh = state.of === corner ? state.reply : null
  const seen = fresh?.ok && corner ? compareProof(corner, fresh.points) : null
  const crossed = seen?.crossing ?? null
  const m = corner?.margins
  return (
    <section className="loop-proof">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <button
        type="button"
        className="act"
        disabled={!stable || state.runs}
        onClick={() => corner && prove(corner)}
      >
        {state.runs ? words.runs : state.reply ? words.again : words.act}
      </button>
      <div role="status">
        {corner && !stable && <p>{words.unstable}</p>}
        {fresh && !fresh.ok && <p className="problem">{words.failed(fresh.message)}</p>}
        {fresh?.ok && seen && (
          <p>
            {words.agrees(
              fresh.points.length,
              decibels(seen.gain_dB),
              degrees(seen.phase_deg),
              show(fresh.time_s, 's', 2),
            )}
          </p>
        )}
        {crossed && m?.ok && (
          <p>
            {words.crossover(
              show(crossed.frequency_Hz, 'Hz', 3),
              show(m.crossover_Hz, 'Hz', 3),
              degrees(Math.abs(crossed.phaseMargin_deg - m.phaseMargin_deg)),
            )}
          </p>
        )}
      </div>
    </section>
  )
}
