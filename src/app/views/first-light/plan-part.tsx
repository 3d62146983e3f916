import { useMemo, useState } from 'react'
import { type Judgement, type Plan, type Stage, transformerGate } from '../../../engine/bench/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { show, showPercent } from '../../fields/show.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { GateVerdict } from '../transformer/gate-verdict.tsx'
import { usePlanned } from '../transformer/use-planned.ts'
import { HeatCheckPanel, WarmPanel } from './heat-panel.tsx'
import { LampPanel } from './lamp-panel.tsx'
import type { PlanAnswer } from './messages.ts'
import { StageCard } from './stage-card.tsx'

const words = firstLightStrings

const GatePanel = ({ supply }: { supply: Supply }) => {
  const planned = usePlanned(supply)
  const gate = useMemo(
    () => (planned === null ? null : transformerGate(planned, supply.bench.asBuilt)),
    [planned, supply.bench.asBuilt],
  )
  return gate && gate.verdict !== 'nothing measured' ? <GateVerdict gate={gate} /> : null
}

const SmallerPanel = ({ plan }: { plan: Plan }) => {
  const { smaller } = plan
  if (smaller === null) return null
  return (
    <section className="fl-panel">
      <h4>{words.smaller.title}</h4>
      <dl className="figures-live fl-figures">
        <div>
          <dt>{words.smaller.carries}</dt>
          <dd>{show(smaller.output_W, 'W', 2)}</dd>
        </div>
        <div>
          <dt>{words.smaller.folds}</dt>
          <dd>{smaller.folds >= 1 ? words.lamp.wholeLoad : words.lamp.ofLoad(showPercent(smaller.folds))}</dd>
        </div>
        <div>
          <dt>{words.smaller.flux}</dt>
          <dd>{show(smaller.peakFlux_T, 'T')}</dd>
        </div>
      </dl>
    </section>
  )
}

/** What is done, out of line, and skipped, before the last tick. */
const SignOff = ({ plan, judgement, readings }: { plan: Plan; judgement: Judgement; readings: number }) => {
  const open = plan.stages.filter(
    (s) => s.id !== 'sign-off' && judgement.stages.find((p) => p.id === s.id)?.state !== 'done',
  )
  const risks = [...new Set(plan.skipped.map((s) => s.risk))]
  return (
    <section className="fl-panel">
      <h4>{words.signOff.title}</h4>
      <p>
        {words.signOff.readings(readings)}, {words.signOff.out(judgement.flags.length)}.{' '}
        {open.length > 0 ? words.signOff.open(open.map((s) => s.title).join('; ')) : words.signOff.done}
      </p>
      {risks.length > 0 && (
        <details>
          <summary>{words.signOff.skipped}</summary>
          <ul className="fl-risks">
            {risks.map((risk) => (
              <li key={risk}>
                <b>{risk}</b>{' '}
                {plan.skipped
                  .filter((s) => s.risk === risk)
                  .map((s) => s.what)
                  .join('; ')}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}

/** The stages in order; one is open at a time, the first that is not ticked to begin with. */
export const PlanPart = ({
  evaluation,
  supply,
  answer,
  judgement,
}: {
  evaluation: Evaluation
  supply: Supply
  answer: PlanAnswer
  judgement: Judgement
}) => {
  const { plan, warm } = answer
  const { parts } = evaluation.design
  const current = judgement.stages.find((s) => s.state === 'open')?.id ?? 'sign-off'
  const [chosen, setChosen] = useState<{ readonly id: string | null; readonly during: string } | null>(null)
  // What was opened by hand stays open until the stage at work is another one.
  const open = chosen !== null && chosen.during === current ? chosen.id : current
  const title = (id: string): string => plan.stages.find((s) => s.id === id)?.title ?? id
  const beside = (stage: Stage) => {
    if (stage.id === 'transformer') return <GatePanel supply={supply} />
    if (stage.id === 'smaller-chip') return <SmallerPanel plan={plan} />
    if (stage.id === 'lamp')
      return <LampPanel answer={answer} start_V={parts.switcher.minimumStartVoltage_V} />
    if (stage.id === 'soak')
      return (
        <>
          {warm && <WarmPanel warm={warm} />}
          <HeatCheckPanel evaluation={evaluation} log={supply.bench.log} />
        </>
      )
    if (stage.id === 'sign-off')
      return <SignOff plan={plan} judgement={judgement} readings={supply.bench.log.length} />
    return null
  }
  return (
    <div className="fl-stages">
      {plan.stages.map((stage, k) => (
        <StageCard
          key={stage.id}
          supply={supply}
          stage={stage}
          progress={judgement.stages.find((s) => s.id === stage.id)!}
          number={k + 1}
          checks={judgement.checks.filter(
            (c) => c.check.stage === stage.id && stage.checks.some((own) => own.id === c.check.id),
          )}
          offers={judgement.asBuilt}
          nextId={judgement.next?.id ?? null}
          isOpen={open === stage.id}
          toggle={(id) => setChosen({ id: open === id ? null : id, during: current })}
          waitsFor={judgement.stages
            .find((s) => s.id === stage.id)!
            .waitsFor.map(title)
            .join('; ')}
        >
          {open === stage.id && beside(stage)}
        </StageCard>
      ))}
    </div>
  )
}
