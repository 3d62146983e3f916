import { useEffect, useMemo, useState } from 'react'
import type { Lamp, Switcher } from '../../../engine/parts/part.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { desk } from '../../state/desk.ts'
import { useStore } from '../../state/store.ts'
import { benchChoices, choiceFor, gentlest, lampsAtHand, smallerAtHand } from './choices.ts'
import type { BenchReply, PlanAnswer, PlanRequest } from './messages.ts'

/** Plans made since the page was opened, the newest last; a reading typed in changes none of them. */
const made = new Map<string, PlanAnswer>()
const kept = 6
let worker: Worker | null = null
let lastId = 0
const listeners = new Set<(reply: BenchReply) => void>()

const theWorker = (): Worker => {
  if (worker === null) {
    worker = new Worker(new URL('./bench-worker.ts', import.meta.url), { type: 'module' })
    worker.onmessage = ({ data }: MessageEvent<BenchReply>) => {
      for (const listener of [...listeners]) listener(data)
    }
  }
  return worker
}

/** What the drawer offers for the first start, and what is taken of it. */
export interface AtHand {
  readonly lamps: readonly Lamp[]
  readonly lamp: Lamp | null
  readonly smaller: readonly Switcher[]
  readonly chip: Switcher | null
}

export const useAtHand = (supply: Supply): AtHand => {
  const drawer = useStore(desk, (d) => d.drawer)?.history.value ?? null
  const all = useStore(benchChoices, (c) => c)
  return useMemo(() => {
    const { source } = supply.need
    const used = supply.parts.find((p) => p.id === supply.build.places.switcher)
    const choice = choiceFor(all, supply.id)
    const lamps = lampsAtHand(drawer, source.kind === 'mains' ? source.nominal_Vrms : source.nominal_V)
    const smaller = used?.kind === 'switcher' ? smallerAtHand(drawer, used) : []
    return {
      lamps,
      lamp: lamps.find((l) => l.id === choice.lamp) ?? null,
      smaller,
      chip:
        choice.smaller === 'none' || used?.kind !== 'switcher'
          ? null
          : (smaller.find((s) => s.id === choice.smaller) ?? gentlest(smaller, used)),
    }
  }, [supply, drawer, all])
}

export interface PlanState {
  readonly answer: PlanAnswer | null
  readonly problem: string | null
  /** The answer belongs to the supply as it is now. */
  readonly fresh: boolean
}

const idle: PlanState = { answer: null, problem: null, fresh: false }

/** The power-up plan of a supply, made beside the page. */
export const usePlan = (supply: Supply, atHand: AtHand): PlanState => {
  const { lamps, lamp, chip } = atHand
  const owned = supply.bench.instruments
  const key = useMemo(
    () =>
      JSON.stringify([
        supply.id,
        supply.name,
        supply.need,
        supply.build,
        supply.parts,
        supply.bench.asBuilt,
        owned,
        lamp ?? lamps,
        chip,
      ]),
    [supply, owned, lamps, lamp, chip],
  )
  const [state, setState] = useState<PlanState>(idle)
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key holds all that the plan is made of
  useEffect(() => {
    const known = made.get(key)
    if (known) {
      setState({ answer: known, problem: null, fresh: true })
      return
    }
    setState((before) => ({ ...before, fresh: false }))
    lastId += 1
    const id = lastId
    const listen = (reply: BenchReply) => {
      if (reply.id !== id) return
      if (reply.is === 'plan') {
        made.set(key, reply.answer)
        for (const old of [...made.keys()].slice(0, -kept)) made.delete(old)
        setState({ answer: reply.answer, problem: null, fresh: true })
      } else if (reply.is === 'failed') setState({ answer: null, problem: reply.message, fresh: true })
    }
    listeners.add(listen)
    const request: PlanRequest = {
      id,
      ask: 'plan',
      supply,
      owned,
      lamps: lamp ? [lamp] : lamps,
      smaller: chip,
    }
    theWorker().postMessage(request)
    return () => {
      listeners.delete(listen)
    }
  }, [key])
  return state
}
