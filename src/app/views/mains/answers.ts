import { conditionById } from '../../../engine/supply/condition.ts'
import { type Operation, operate } from '../../../engine/supply/evaluate/operate.ts'
import { plantOf } from '../../../engine/supply/evaluate/plant-of.ts'
import { at, type Evaluation } from '../../../engine/supply/evaluation.ts'
import {
  type BleedAnswer,
  bleedOf,
  bulkLife,
  fuseUse,
  harmonicsOf,
  type MainsSweep,
  plugIns,
  surgeOf,
  sweepMains,
} from '../../../engine/supply/mains-side/index.ts'
import type { ReadingKey, Readings } from '../../../engine/supply/reading.ts'

const inputs = ['minimum', 'nominal', 'maximum'] as const

/** One end of the input range at full load; null where it does not run. */
interface InputColumn {
  readonly input_V: number
  readonly operation: Operation
  readonly readings: Readings
}

export interface MainsAnswer {
  readonly sweep: MainsSweep
  readonly columns: readonly (InputColumn | null)[]
  readonly plugIns: ReturnType<typeof plugIns>
  readonly life: ReturnType<typeof bulkLife>
  readonly fuse: ReturnType<typeof fuseUse>
  readonly bleed: BleedAnswer | null
  readonly harmonics: ReturnType<typeof harmonicsOf>
  readonly surge: ReturnType<typeof surgeOf>
  readonly nominal: Operation | null
}

/** Greatest steady value of a reading over all inputs and loads. */
export const steadyMost = (evaluation: Evaluation, key: ReadingKey): number =>
  evaluation.conditions.reduce(
    (most, c) => (c.runs && c.condition.kind === 'steady' ? Math.max(most, c.readings[key]) : most),
    0,
  )

/** Everything that the view of the mains side shows of a supply. */
export function mainsAnswer(evaluation: Evaluation): MainsAnswer {
  const { design } = evaluation
  const plant = plantOf(design)
  const columns = inputs.map((input): InputColumn | null => {
    const operation = operate(plant, conditionById.get(`${input}-100`)!)
    const readings = at(evaluation, `${input}-100`)?.readings
    return operation && readings ? { input_V: readings.input_V, operation, readings } : null
  })
  const nominal = columns[1]?.operation ?? null
  const starts = plugIns(design, nominal?.input.bulk.input_Arms ?? 0)
  return {
    sweep: sweepMains(design),
    columns,
    plugIns: starts,
    life: nominal ? bulkLife(design, evaluation, nominal) : null,
    fuse: fuseUse(
      design,
      steadyMost(evaluation, 'inputCurrent_Arms'),
      starts[0]!,
      nominal?.inside_C ?? design.need.ambient_C,
    ),
    bleed: bleedOf(design),
    harmonics: nominal ? harmonicsOf(design, nominal) : null,
    surge: surgeOf(design),
    nominal,
  }
}
