import { cornerGroups, proveGroup, runInTime, stageDeck, stageWave } from '../../../engine/stage/index.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { resolve } from '../../../engine/supply/evaluate.ts'
import type { Result } from '../../../engine/supply/result.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import type { Answers, Job, Reply, Request } from './messages.ts'

const scope = self as unknown as DedicatedWorkerGlobalScope

/** The design of the supply that was last asked about; the next question is mostly about the same. */
let last: { readonly text: string; readonly design: Result<Design> } | null = null

const designOf = (supply: Supply): Result<Design> => {
  const text = JSON.stringify(supply)
  if (last?.text !== text) last = { text, design: resolve(supply) }
  return last.design
}

/** Typed arrays in an answer, which are handed over and not copied. */
const buffersIn = (value: unknown, found: Set<ArrayBuffer> = new Set()): Set<ArrayBuffer> => {
  if (ArrayBuffer.isView(value)) found.add(value.buffer as ArrayBuffer)
  else if (typeof value === 'object' && value !== null)
    for (const inner of Object.values(value)) buffersIn(inner, found)
  return found
}

const work = (design: Design, job: Job, progress: (fraction: number) => void): Answers[Job['kind']] => {
  switch (job.kind) {
    case 'wave':
      return stageWave(design, job.corner)
    case 'group':
      return proveGroup(design, cornerGroups[job.group]!)
    case 'warm':
      proveGroup(design, cornerGroups.at(-1)!)
      return null
    case 'run':
      return runInTime(design, job.run, job.options, progress)
    case 'deck': {
      const deck = stageDeck(design, job.corner)
      return deck.ok ? { ok: true, text: deck.text } : deck
    }
  }
}

scope.onmessage = ({ data: { id, supply, job } }: MessageEvent<Request>) => {
  const reply = (message: Reply): void => scope.postMessage(message)
  try {
    const design = designOf(supply)
    if (!design.ok) return reply({ id, is: 'problems', problems: design.problems })
    const value = work(design.value, job, (fraction) => reply({ id, is: 'progress', fraction }))
    const message: Reply = { id, is: 'answer', value }
    scope.postMessage(message, [...buffersIn(value)])
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error)
    reply({ id, is: 'problems', problems: [{ path: '', message }] })
  }
}
