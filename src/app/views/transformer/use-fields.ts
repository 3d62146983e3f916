import { useEffect, useState } from 'react'
import type { ConditionId } from '../../../engine/supply/condition.ts'
import { fail, type Problem } from '../../../engine/supply/result.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import type { TransformerAnswer } from '../../../engine/supply/transformer/index.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import type { FieldReply, FieldRequest } from './messages.ts'

type Part<P extends FieldReply['part']> = Extract<FieldReply, { part: P }>['value']

/** What the worker has said so far; parts of an older supply stay on show, marked, until newer ones come. */
export interface Fields {
  readonly answer: TransformerAnswer | null
  readonly problems: readonly Problem[]
  readonly maps: Part<'maps'> | null
  readonly choices: Part<'choices'>
  readonly gap: Part<'gap'>
  /** The answer belongs to what is on the page now. */
  readonly fresh: boolean
  /** The map, the curves and the gap loss do too. */
  readonly complete: boolean
}

const nothing: Fields = {
  answer: null,
  problems: [],
  maps: null,
  choices: [],
  gap: null,
  fresh: false,
  complete: false,
}

let worker: Worker | null = null
let lastId = 0
const listeners = new Set<(reply: FieldReply) => void>()

const theWorker = (): Worker => {
  if (worker === null) {
    worker = new Worker(new URL('./field-worker.ts', import.meta.url), { type: 'module' })
    const tell = (reply: FieldReply) => {
      for (const listener of [...listeners]) listener(reply)
    }
    worker.onmessage = ({ data }: MessageEvent<FieldReply>) => tell(data)
    worker.onerror = () => tell({ id: lastId, part: 'answer', value: fail('', transformerStrings.noWorker) })
  }
  return worker
}

const taken = (fields: Fields, reply: FieldReply): Fields => {
  switch (reply.part) {
    case 'answer':
      return reply.value.ok
        ? { ...fields, answer: reply.value.value, problems: [], fresh: true }
        : { ...nothing, problems: reply.value.problems, fresh: true, complete: true }
    case 'maps':
      return { ...fields, maps: reply.value }
    case 'choices':
      return { ...fields, choices: reply.value }
    case 'gap':
      return { ...fields, gap: reply.value, complete: true }
  }
}

/** The field of a supply's transformer at a condition, solved beside the page. */
export const useFields = (supply: Supply, condition: ConditionId): Fields => {
  const [fields, setFields] = useState<Fields>(nothing)
  useEffect(() => {
    lastId += 1
    const id = lastId
    setFields((before) => ({ ...before, fresh: false, complete: false }))
    const listen = (reply: FieldReply) => {
      if (reply.id === id) setFields((before) => taken(before, reply))
    }
    listeners.add(listen)
    const request: FieldRequest = { id, supply, condition }
    theWorker().postMessage(request)
    return () => {
      listeners.delete(listen)
    }
  }, [supply, condition])
  return fields
}
