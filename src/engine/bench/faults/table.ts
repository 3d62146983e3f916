import { type LampModel, lampModel } from '../../mains/lamp.ts'
import type { Evaluation } from '../../supply/evaluation.ts'
import { checkSpecs } from '../plan/checks.ts'
import type { CheckSpec, PlanFacts } from '../plan/spec.ts'
import { measure } from '../unit/measure.ts'
import type { Readings } from '../unit/readings.ts'
import type { RunCache } from '../unit/running-readings.ts'
import { healthyUnit, type Unit } from '../unit/unit.ts'
import { boardFaults } from './board-faults.ts'
import { controlFaults } from './control-faults.ts'
import { type FaultDefinition, fault } from './definition.ts'
import { transformerFaults } from './transformer-faults.ts'
import type { FaultRow, FaultTable, Trace } from './types.ts'

/** Id of the row that stands for a supply without a fault. */
export const healthyId = 'healthy'

/** The row of a supply without a fault. */
export const healthy = fault({
  id: healthyId,
  title: 'Nothing wrong in what was read',
  weight: 4,
  telling: 'Every reading lies in its band.',
  remedy: 'Go on with the plan.',
})

/** Every fault that the finder knows. */
export const faultDefinitions: readonly FaultDefinition[] = [
  ...transformerFaults,
  ...boardFaults,
  ...controlFaults,
]

/** Least chance that an answer gets, so that one slip of the eye does not rule a fault out. */
const slip = 0.02
/** How sure a computed answer is. */
const computedSure = 0.94

/** Lamp that the table is made for: what the plan has chosen. */
export interface TableLamp {
  readonly power_W: number
  readonly voltage_V: number
}

/**
 * What every fault makes of every reading on this very supply. Rows come from the same models that give the plan its
 * expected values, run on the changed supply; what no model computes is experience of the trade, marked as such.
 * `progress` is called after each row. Some seconds of computing; the result is plain data to be kept under its key.
 */
export function faultTable(
  evaluation: Evaluation,
  lamp: TableLamp,
  progress: (done: number, of: number) => void = () => {},
): FaultTable {
  const model = lampModel(lamp.power_W, lamp.voltage_V)
  const cache: RunCache = new Map()
  const base = healthyUnit(evaluation.design)
  const planned_V = evaluation.design.need.output_V
  const well = measure(base, planned_V, model, cache)
  const facts: PlanFacts = { evaluation, healthy: well, lamp: model }
  const specs = checkSpecs.filter((spec) => spec.applies(facts))
  const all = [healthy, ...faultDefinitions]
  const rows = all.map((f, k) => {
    const row = rowOf(f, base, planned_V, model, cache, facts, specs)
    progress(k + 1, all.length)
    return row
  })
  return { rows, key: faultTableKey(evaluation, lamp) }
}

function rowOf(
  f: FaultDefinition,
  base: Unit,
  planned_V: number,
  lamp: LampModel,
  cache: RunCache,
  facts: PlanFacts,
  specs: readonly CheckSpec[],
): FaultRow {
  const unit = f.change(base)
  const readings = unit === base ? facts.healthy : measure(unit, planned_V, lamp, cache)
  const signature: Record<string, Trace> = {}
  for (const spec of specs) {
    const trace = traceOf(spec, f, readings, facts)
    if (trace !== null) signature[spec.id] = trace
  }
  const fromKnowledge = specs.map((s) => s.id).filter((id) => f.known[id] !== undefined && id in signature)
  const basis =
    unit === base
      ? f.id === healthyId
        ? 'simulated'
        : 'knowledge'
      : fromKnowledge.length > 0
        ? 'mixed'
        : 'simulated'
  return {
    id: f.id,
    title: f.title,
    basis,
    fromKnowledge,
    weight: f.weight,
    signature,
    telling: f.telling,
    remedy: f.remedy,
    danger: f.danger,
  }
}

/** What a fault makes of one check: from the readings of the changed unit, or from experience; null if not reached. */
export function traceOf(
  spec: CheckSpec,
  f: FaultDefinition,
  readings: Readings,
  facts: PlanFacts,
): Trace | null {
  const known = f.known[spec.id]
  const read = readings[spec.id]
  if (known?.kind === 'unreachable') return null
  if (spec.kind === 'state') {
    if (known?.kind === 'answer') return answers(spec.answers, known.answer, known.sure)
    return typeof read === 'string' && read in spec.answers ? answers(spec.answers, read, computedSure) : null
  }
  const well = facts.healthy[spec.id]
  if (known?.kind === 'times' && typeof well === 'number')
    return { kind: 'number', value: well * known.factor, spread: known.spread }
  if (known?.kind === 'value') return { kind: 'number', value: known.value, spread: known.spread }
  if (typeof read !== 'number') return null
  return {
    kind: 'number',
    value: read,
    spread: Math.hypot(spec.spread(facts), f.varies[spec.id] ?? 0),
  }
}

function answers(of: Readonly<Record<string, string>>, id: string, sure: number): Trace {
  const ids = Object.keys(of)
  const rest = Math.max(slip, (1 - sure) / Math.max(1, ids.length - 1))
  return { kind: 'state', chances: Object.fromEntries(ids.map((a) => [a, a === id ? sure : rest])) }
}

/** Fingerprint of all that a fault table depends on; equal keys mean equal tables. */
export function faultTableKey(evaluation: Evaluation, lamp: TableLamp): string {
  const { supply } = evaluation.design
  const text = JSON.stringify([supply.need, supply.parts, supply.build, supply.bench.asBuilt, lamp])
  let hash = 0x811c9dc5
  let second = 0x9e3779b9
  for (let k = 0; k < text.length; k++) {
    hash = Math.imul(hash ^ text.charCodeAt(k), 0x01000193)
    second = Math.imul(second ^ text.charCodeAt(k), 0x85ebca6b) + 1
  }
  return `faults-1-${(hash >>> 0).toString(16)}${(second >>> 0).toString(16)}`
}
