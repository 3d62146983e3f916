import { memo, useMemo, useState } from 'react'
import { conditionById } from '../../../engine/supply/condition.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { gainRoom_dB, type Loop, type LoopCurve } from '../../../engine/supply/loop/index.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { useStore } from '../../state/store.ts'
import { limitStrings } from '../../strings/limits.ts'
import { loopStrings as words } from '../../strings/loop.ts'
import { ConditionPlate, conditionStore } from '../bench/condition-plate.tsx'
import { loopAnswer, loopHere } from './answers.ts'
import { BodeFigure } from './bode-figure.tsx'
import { Network } from './network.tsx'
import { ProofPanel } from './proof.tsx'
import { Ringing } from './ringing.tsx'
import { Ripple } from './ripple.tsx'
import { Steps } from './steps.tsx'
import { Bias, Trim } from './tables.tsx'
import { useProof } from './use-proof.ts'
import { decibels, degrees, hertz } from './words.ts'

/** Margin below which the worst corner is close. */
const close_deg = 30

/** The worst corner in a sentence, and over what the loop was looked at. */
const Verdict = ({ loop }: { loop: Loop }) => {
  const { worst } = loop
  if (worst === null) return <p className="problem">{words.noCorners}</p>
  const { phase, gain, slowest, fastest } = worst
  const [p, g, s, f] = [phase, gain, slowest, fastest].map((c) => (c.margins.ok ? c.margins : null))
  const margin = p!.phaseMargin_deg
  const state = margin < 0 ? 'over' : margin < close_deg ? 'close' : 'holds'
  const room = gainRoom_dB(g!)
  return (
    <div className="loop-verdict" data-state={state}>
      <p className="loop-worst">
        <StandingMark state={state} label={limitStrings[state]} />{' '}
        {margin < 0 ? words.sings(phase.name) : words.worst(degrees(margin), phase.name)}
      </p>
      <p className="lead">
        {words.span(loop.corners.length, hertz(s!.crossover_Hz), hertz(f!.crossover_Hz))}{' '}
        {Number.isFinite(room) && words.gainRoom(decibels(room), gain.name)}{' '}
        {loop.skips.length > 0 &&
          words.skips(loop.skips.map((id) => conditionById.get(id)?.label ?? id).join('; '))}
      </p>
      {loop.warnings.map((warning) => (
        <p key={warning} className="loop-warning">
          {warning}
        </p>
      ))}
    </div>
  )
}

/** Gain and phase of the feedback loop at every corner, its network, and what the bench sees of it. */
export const LoopView = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const condition = useStore(conditionStore, (c) => c)
  const answer = loopAnswer(evaluation)
  const here = useMemo(() => loopHere(evaluation, condition), [evaluation, condition])
  const [before, setBefore] = useState<LoopCurve | null>(null)
  const { state, prove } = useProof()
  const proved = state.of === here?.corner && state.reply?.ok ? state.reply : null
  const corner = here?.corner ?? null
  return (
    <div className="loop">
      <h2 className="unseen">{words.title}</h2>
      <Verdict loop={answer.loop} />
      <ConditionPlate />
      {here === null && <p className="problem">{words.restsHere}</p>}
      <div className="loop-main">
        <figure className="loop-bode">
          <BodeFigure answer={answer} here={here} before={before} points={proved?.points ?? []} />
          <figcaption>
            {words.bandMeans} {before && words.beforeMeans}
          </figcaption>
        </figure>
        <Network evaluation={evaluation} begin={() => setBefore(here?.curve ?? null)} />
      </div>
      <ProofPanel state={state} corner={corner} prove={(c) => prove(evaluation, c)} />
      {corner && <Steps corner={corner} traces={proved?.traces ?? []} />}
      <Ripple evaluation={evaluation} condition={condition} />
      <div className="loop-pair">
        <Trim design={evaluation.design} />
        <Ringing corner={corner} />
      </div>
      <Bias design={evaluation.design} />
    </div>
  )
})
