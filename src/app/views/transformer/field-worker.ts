import { gapLoss } from '../../../engine/magnetics/field/index.ts'
import { windingNames } from '../../../engine/supply/build.ts'
import { conditionById } from '../../../engine/supply/condition.ts'
import { resolve } from '../../../engine/supply/evaluate.ts'
import { fail } from '../../../engine/supply/result.ts'
import {
  conductorChoices,
  momentMaps,
  solveTransformer,
  wallGaps,
  waveHarmonics,
} from '../../../engine/supply/transformer/index.ts'
import type { FieldReply, FieldRequest } from './messages.ts'

/** Columns outward and rows along the post of the maps. */
const mapSize = { columns: 44, rows: 64 }

const scope = self as unknown as DedicatedWorkerGlobalScope
let newest: FieldRequest | null = null
let running = false

const reply = (message: FieldReply): void => scope.postMessage(message)
/** Lets a newer request in before the next part begins. */
const pause = (): Promise<void> => new Promise((done) => setTimeout(done))

const solve = async (request: FieldRequest): Promise<void> => {
  const { id, supply, condition } = request
  const overtaken = async (): Promise<boolean> => {
    await pause()
    return newest !== null && newest.id !== id
  }
  const design = resolve(supply)
  if (!design.ok) return reply({ id, part: 'answer', value: design })
  const solved = solveTransformer(design.value, conditionById.get(condition)!)
  if (!solved.ok) return reply({ id, part: 'answer', value: solved })
  const { answer, field } = solved.value
  reply({ id, part: 'answer', value: { ok: true, value: answer } })
  if (await overtaken()) return
  reply({
    id,
    part: 'maps',
    value: momentMaps(field, answer.currents, mapSize.columns, mapSize.rows),
  })
  if (await overtaken()) return
  reply({
    id,
    part: 'choices',
    value: windingNames.flatMap((winding) =>
      conductorChoices(design.value, answer.currents, winding, answer.temperature_C.field),
    ),
  })
  if (await overtaken()) return
  const gaps = wallGaps(design.value)
  const loss =
    gaps.length === 0
      ? null
      : gapLoss(
          field.layout,
          gaps,
          waveHarmonics(answer.currents, field.layout.windings),
          answer.currents.frequency_Hz,
          answer.temperature_C.field,
        )
  reply({ id, part: 'gap', value: loss?.ok ? loss.loss : null })
}

const work = async (): Promise<void> => {
  running = true
  while (newest !== null) {
    const request = newest
    newest = null
    try {
      await solve(request)
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error)
      reply({ id: request.id, part: 'answer', value: fail('', message) })
    }
  }
  running = false
}

scope.onmessage = ({ data }: MessageEvent<FieldRequest>) => {
  newest = data
  if (!running) setTimeout(() => void work())
}
