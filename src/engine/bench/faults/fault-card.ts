import { lampModel } from '../../mains/lamp.ts'
import type { Unit as UnitOfMeasure } from '../../quantity/index.ts'
import type { Evaluation } from '../../supply/evaluation.ts'
import { checkSpecs } from '../plan/checks.ts'
import type { CheckSpec, PlanFacts } from '../plan/spec.ts'
import type { StageId } from '../plan/types.ts'
import { coldReadings } from '../unit/cold-readings.ts'
import { lowEnergyReadings } from '../unit/low-energy-readings.ts'
import { seenAndHeard } from '../unit/measure.ts'
import type { Readings } from '../unit/readings.ts'
import { transformerReadings } from '../unit/transformer-readings.ts'
import { healthyUnit, type Unit } from '../unit/unit.ts'
import type { FaultDefinition } from './definition.ts'
import { overlap } from './likelihood.ts'
import { faultDefinitions, healthy, traceOf } from './table.ts'

/** A reading with nothing live that gives a fault away. */
export interface ColdTell {
  readonly what: string
  readonly between: string
  /** Null for a reading by eye. */
  readonly unit: UnitOfMeasure | null
  readonly healthy: number | string
  readonly faulty: number | string
}

/** One line of the fault card. */
export interface FaultCardRow {
  readonly id: string
  readonly title: string
  readonly telling: string
  readonly remedy: string
  /** What it may cost; empty where nothing. */
  readonly danger: string
  /** Null where it shows only under power. */
  readonly tell: ColdTell | null
}

const unpowered: readonly StageId[] = ['cold', 'low-energy', 'transformer']
/** How far two readings must lie apart to tell one from the other: 1 is surely. */
const apartEnough = 0.6
/** Below this advantage the earlier stage is taken. */
const worthLater = 0.05

const readingsOf = (unit: Unit, planned_V: number): Readings => ({
  ...seenAndHeard,
  ...transformerReadings(unit),
  ...coldReadings(unit),
  ...lowEnergyReadings(unit, planned_V),
})

/**
 * Faults of one supply with the unpowered reading that gives each away best, computed for this very build: those that
 * may hurt somebody or cost a part first, then by how often they are met. A few milliseconds a fault.
 */
export function faultCard(evaluation: Evaluation, most = 20): FaultCardRow[] {
  const { design } = evaluation
  const base = healthyUnit(design)
  const planned_V = design.need.output_V
  const well = readingsOf(base, planned_V)
  // No reading of these stages knows the lamp.
  const facts: PlanFacts = { evaluation, healthy: well, lamp: lampModel(60, 230) }
  const specs = unpowered.flatMap((stage) =>
    checkSpecs.filter((spec) => spec.stage === stage && spec.applies(facts)),
  )
  return [...faultDefinitions]
    .sort((a, b) => Number(b.danger !== '') - Number(a.danger !== '') || b.weight - a.weight)
    .slice(0, most)
    .map((f) => ({
      id: f.id,
      title: f.title,
      telling: f.telling,
      remedy: f.remedy,
      danger: f.danger,
      tell: bestTell(f, readingsOf(f.change(base), planned_V), specs, facts),
    }))
}

function bestTell(
  f: FaultDefinition,
  readings: Readings,
  specs: readonly CheckSpec[],
  facts: PlanFacts,
): ColdTell | null {
  let best: { readonly spec: CheckSpec; readonly apart: number; readonly faulty: number | string } | null =
    null
  for (const spec of specs) {
    const a = traceOf(spec, healthy, facts.healthy, facts)
    const b = traceOf(spec, f, readings, facts)
    if (a === null || b === null) continue
    const apart = 1 - overlap(spec.id, a, b)
    if (apart > (best?.apart ?? apartEnough) + (best ? worthLater : 0))
      best = { spec, apart, faulty: b.kind === 'number' ? b.value : likeliest(b.chances) }
  }
  if (best === null) return null
  const { spec, faulty } = best
  const said = (reading: number | string): number | string =>
    spec.kind === 'state' && typeof reading === 'string' ? (spec.answers[reading] ?? reading) : reading
  const point = (of: CheckSpec['at']): string =>
    of === null ? '' : typeof of === 'string' ? of : of(facts.evaluation.design)
  return {
    what: spec.what,
    between: [point(spec.at), point(spec.reference)].filter(Boolean).join(' to '),
    unit: spec.kind === 'number' ? spec.unit : null,
    healthy: said(facts.healthy[spec.id] ?? ''),
    faulty: said(faulty),
  }
}

const likeliest = (chances: Readonly<Record<string, number>>): string =>
  Object.entries(chances).reduce((a, b) => (b[1] > a[1] ? b : a))[0]
