import { faultTable } from '../../../engine/bench/index.ts'
import { evaluated, makePlan } from './make-plan.ts'
import type { BenchReply, PlanRequest, TableRequest } from './messages.ts'

const scope = self as unknown as DedicatedWorkerGlobalScope
const reply = (message: BenchReply): void => scope.postMessage(message)

scope.onmessage = ({ data }: MessageEvent<PlanRequest | TableRequest>) => {
  const { id } = data
  try {
    if (data.ask === 'plan') reply({ id, is: 'plan', answer: makePlan(data) })
    else
      reply({
        id,
        is: 'table',
        table: faultTable(evaluated(data.supply), data.lamp, (done, of) =>
          reply({ id, is: 'progress', done, of }),
        ),
      })
  } catch (error) {
    reply({ id, is: 'failed', message: error instanceof Error ? error.message : String(error) })
  }
}
