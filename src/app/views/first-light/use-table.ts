import { useEffect, useState } from 'react'
import { type FaultTable, faultTableKey, type TableLamp } from '../../../engine/bench/index.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import type { BenchReply, TableRequest } from './messages.ts'
import { keepTable, keptTable } from './table-store.ts'

export interface TableState {
  readonly table: FaultTable | null
  readonly done: number
  readonly of: number
  readonly problem: string | null
}

const waiting: TableState = { table: null, done: 0, of: 0, problem: null }
const here = new Map<string, FaultTable>()

/** The fault table of a planned supply: from memory, from this browser's storage, else computed beside the page. */
export const useTable = (planned: Evaluation | null, lamp: TableLamp | null): TableState => {
  const key =
    planned === null || lamp === null
      ? null
      : faultTableKey(planned, { power_W: lamp.power_W, voltage_V: lamp.voltage_V })
  const [state, setState] = useState<TableState>(waiting)
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is the fingerprint of supply and lamp
  useEffect(() => {
    if (key === null || planned === null || lamp === null) return
    const known = here.get(key)
    if (known) {
      setState({ ...waiting, table: known })
      return
    }
    let worker: Worker | null = null
    let gone = false
    const done = (table: FaultTable) => {
      here.set(key, table)
      setState({ ...waiting, table })
    }
    const compute = () => {
      worker = new Worker(new URL('./bench-worker.ts', import.meta.url), { type: 'module' })
      worker.onmessage = ({ data }: MessageEvent<BenchReply>) => {
        if (data.is === 'progress') setState({ ...waiting, done: data.done, of: data.of })
        else if (data.is === 'table') {
          worker?.terminate()
          done(data.table)
          void keepTable(data.table)
        } else if (data.is === 'failed') setState({ ...waiting, problem: data.message })
      }
      const request: TableRequest = {
        id: 1,
        ask: 'table',
        supply: planned.design.supply,
        lamp: { power_W: lamp.power_W, voltage_V: lamp.voltage_V },
      }
      worker.postMessage(request)
    }
    setState(waiting)
    void keptTable(key).then((table) => {
      if (gone) return
      if (table) done(table)
      else compute()
    })
    return () => {
      gone = true
      worker?.terminate()
    }
  }, [key])
  return state
}
