import { loopGain, responseAt } from '../../../engine/loop/index.ts'
import type { CornerWithMargins } from '../../../engine/supply/loop/index.ts'
import type { ProofPoint } from '../../../engine/supply/loop/prove.ts'
import { show } from '../../fields/show.ts'
import { loopStrings } from '../../strings/loop.ts'
import type { ProofState } from './use-proof.ts'
import { decibels, degrees } from './words.ts'

const words = loopStrings.proof

const turned = (value: number): number => ((value + 540) % 360) - 180

/** Largest distance of the points from the computed curve up to a tenth of the switching frequency. */
const farthest = (corner: CornerWithMargins, points: readonly ProofPoint[]) => {
  const T = loopGain(corner.small, corner.path)
  let gain_dB = 0
  let phase_deg = 0
  for (const p of points) {
    if (p.frequency_Hz > corner.stage.frequency_Hz / 10) continue
    const model = responseAt(T, p.frequency_Hz)
    gain_dB = Math.max(gain_dB, Math.abs(p.gain_dB - model.gain_dB))
    phase_deg = Math.max(phase_deg, Math.abs(turned(p.phase_deg - model.phase_deg)))
  }
  return { gain_dB, phase_deg }
}

/** The last crossing of gain 1 between points, by straight lines on logarithmic scales. */
const crossoverOf = (points: readonly ProofPoint[]): { frequency_Hz: number; margin_deg: number } | null => {
  for (let k = points.length - 1; k > 0; k--) {
    const [a, b] = [points[k - 1]!, points[k]!]
    if (a.gain_dB >= 0 && b.gain_dB < 0) {
      const share = a.gain_dB / (a.gain_dB - b.gain_dB)
      const phase = a.phase_deg + share * turned(b.phase_deg - a.phase_deg)
      return {
        frequency_Hz: a.frequency_Hz * (b.frequency_Hz / a.frequency_Hz) ** share,
        margin_deg: turned(phase + 180),
      }
    }
  }
  return null
}

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
  const seen = fresh?.ok && corner ? farthest(corner, fresh.points) : null
  const crossed = fresh?.ok ? crossoverOf(fresh.points) : null
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
              degrees(Math.abs(crossed.margin_deg - m.phaseMargin_deg)),
            )}
          </p>
        )}
      </div>
    </section>
  )
}
