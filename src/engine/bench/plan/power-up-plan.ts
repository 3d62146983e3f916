import { lampModel } from '../../mains/lamp.ts'
import type { Lamp, Switcher } from '../../parts/part.ts'
import { formatQuantity } from '../../quantity/index.ts'
import { asPlanned, isMeasured } from '../../supply/as-planned.ts'
import { evaluate, resolve } from '../../supply/evaluate.ts'
import type { Evaluation } from '../../supply/evaluation.ts'
import { type InstrumentId, ownedInstruments } from '../instruments.ts'
import { transformerGate } from '../transformer-gate.ts'
import { benchOf } from '../unit/at-load.ts'
import { measure } from '../unit/measure.ts'
import { healthyUnit } from '../unit/unit.ts'
import { checkSpecs } from './checks.ts'
import { chooseLamp, lampForecast } from './lamp-forecast.ts'
import { lastChecks, lastReadings } from './last-checks.ts'
import { makeCheck } from './make-check.ts'
import { smallerChecks, smallerForecast, smallerReadings } from './smaller.ts'
import type { CheckSpec, PlanFacts } from './spec.ts'
import { type StageFacts, stageTexts, standingCautions } from './stage-texts.ts'
import { type Check, type Plan, type Stage, type StageId, stageIds } from './types.ts'

const liveFrom = stageIds.indexOf('smaller-chip')
/** The smaller switcher may be left out; nothing waits for it. */
const optional: ReadonlySet<StageId> = new Set(['smaller-chip'])

/**
 * Staged power-up of one supply, computed for it: every expected value is what the models of this room read on a unit
 * built to plan, every band comes from tolerances. Each stage waits for those before it; nothing live is asked for before
 * the cold and low-energy stages. Where something was measured, the first two stages expect what was planned, else a kept
 * reading would be its own measure; the later ones follow what was measured, and a transformer that is rejected forbids
 * them.
 */
export function powerUpPlan(
  evaluation: Evaluation,
  owned: readonly string[],
  lamps: readonly Lamp[] = [],
  smaller: Switcher | null = null,
): Plan {
  const plan = drawnUp(evaluation, owned, lamps, smaller)
  const { supply } = evaluation.design
  const design = isMeasured(supply) ? resolve(asPlanned(supply)) : null
  if (!design?.ok) return plan
  const planned = evaluate(design.value)
  const gate = transformerGate(planned, supply.bench.asBuilt)
  return {
    ...withUnpoweredOf(plan, drawnUp(planned, owned, lamps, smaller)),
    doNotPower: gate.verdict === 'reject' ? gate.reasons : [],
  }
}

const isOfPlan = (stage: StageId): boolean => stage === 'cold' || stage === 'transformer'

/** A plan with the checks of another in the stages that are judged against what was planned. */
const withUnpoweredOf = (plan: Plan, before: Plan): Plan => ({
  ...plan,
  stages: plan.stages.map((stage) =>
    isOfPlan(stage.id) ? (before.stages.find((s) => s.id === stage.id) ?? stage) : stage,
  ),
  inTrouble: plan.inTrouble.map((check) =>
    isOfPlan(check.stage) ? (before.inTrouble.find((c) => c.id === check.id) ?? check) : check,
  ),
})

/** The plan of an evaluation as it is, all stages by the same figures. */
function drawnUp(
  evaluation: Evaluation,
  owned: readonly string[],
  lamps: readonly Lamp[],
  smaller: Switcher | null,
): Plan {
  const { design } = evaluation
  const instruments = ownedInstruments(owned)
  const bench = benchOf(design)
  const tenth_W =
    bench.at('nominal', 0.1)?.operation.stage_W ?? 0.1 * design.need.output_V * design.need.output_A
  const choice = chooseLamp(design, lamps, tenth_W)
  const lamp = lampModel(choice.power_W, choice.voltage_V)
  const forecast = lampForecast(design, bench, choice, bench.at('nominal', 0))
  const less = smaller === null ? null : smallerForecast(design, smaller)
  const healthy = {
    ...measure(healthyUnit(design), design.need.output_V, lamp, new Map()),
    ...lastReadings({ evaluation }),
    ...(less === null ? {} : smallerReadings(design, less, evaluation.fixed.outputSet_V)),
  }
  const facts: PlanFacts = { evaluation, healthy, lamp }
  const made = (specs: readonly CheckSpec[]): Check[] =>
    specs.map((s) => makeCheck(s, facts, instruments)).filter((c) => c !== null)
  const regular = made([...checkSpecs.filter((s) => !s.onlyInTrouble), ...smallerChecks, ...lastChecks])
  const inTrouble = made(checkSpecs.filter((s) => s.onlyInTrouble))
  const texts = stageTexts({ evaluation, bench, lamp: forecast, smaller: less, owned: instruments })
  const stages = stageIds
    .filter((id) => id !== 'smaller-chip' || less !== null)
    .map((id) =>
      stageOf(
        id,
        texts[id],
        regular.filter((c) => c.stage === id),
        instruments,
      ),
    )
  return {
    title: `First light of ${design.supply.name}`,
    stages,
    inTrouble,
    lamp: forecast,
    smaller: less,
    startInput_V: evaluation.fixed.startInput_V,
    doNotPower: [],
    cautions: [
      ...standingCautions(evaluation),
      ...beyondStops(regular.filter((check) => !isOfPlan(check.stage))),
    ],
    skipped: stages.flatMap((s) =>
      s.checks.flatMap((c) =>
        c.chosen.state === 'skipped' ? [{ check: c.id, what: c.what, risk: c.chosen.risk }] : [],
      ),
    ),
  }
}

/** Readings which by calculation already lie past the point at which to switch off. */
function beyondStops(checks: readonly Check[]): readonly string[] {
  return checks.flatMap(({ what, expected, stop }) => {
    if (expected === null || stop === null) return []
    const past =
      (stop.above !== null && expected.typical > stop.above) ||
      (stop.below !== null && expected.typical < stop.below)
    return past
      ? [
          `${what}: by calculation ${formatQuantity(expected.typical, expected.unit)}, past the point at which to switch off. Change the build before going that far.`,
        ]
      : []
  })
}

function stageOf(
  id: StageId,
  text: StageFacts,
  checks: readonly Check[],
  owned: ReadonlySet<InstrumentId>,
): Stage {
  const index = stageIds.indexOf(id)
  const live = index >= liveFrom && id !== 'sign-off'
  const isolation = owned.has('isolation-transformer')
    ? 'Isolation transformer between wall and lamp: it makes a residual-current device blind. A variac alone does not isolate.'
    : 'No isolation transformer is listed: no oscilloscope on the primary, battery meter clipped on while discharged, residual-current device in the circuit.'
  return {
    id,
    live,
    title: text.title,
    purpose: text.purpose,
    setUp: live ? [...text.setUp, isolation] : text.setUp,
    cautions: text.cautions,
    checks,
    stops: text.stops,
    after: stageIds.slice(0, index).filter((before) => !optional.has(before)),
    leave: text.leave,
  }
}
