import type { Supply } from '../../../engine/supply/supply.ts'
import { waveformStrings } from '../../strings/waveforms.ts'
import type { Answers, Job, Reply, Request } from './messages.ts'

/** A question under way. */
export interface Asked<K extends Job['kind']> {
  readonly answer: Promise<Outcome<Answers[K]>>
  /** Gives it up: a worker that is on it is stopped and replaced. */
  readonly cancel: () => void
}

export type Outcome<T> =
  | { readonly is: 'answer'; readonly value: T }
  | { readonly is: 'problems'; readonly messages: readonly string[] }
  | { readonly is: 'cancelled' }

interface Task {
  readonly request: Request
  readonly settle: (outcome: Outcome<Answers[Job['kind']]>) => void
  readonly progress: ((fraction: number) => void) | undefined
}

interface Seat {
  worker: Worker
  task: Task | null
}

/** Corners are solved two at a time: more would take the page's own core. */
const mostWorkers = 2
const seats: Seat[] = []
let queue: Task[] = []
let lastId = 0

const seat = (worker: Worker): Seat => {
  const here: Seat = { worker, task: null }
  listen(here)
  return here
}

const newWorker = (): Worker => new Worker(new URL('./stage-worker.ts', import.meta.url), { type: 'module' })

const listen = (here: Seat): void => {
  here.worker.onmessage = ({ data }: MessageEvent<Reply>) => {
    const { task } = here
    if (task === null || task.request.id !== data.id) return
    if (data.is === 'progress') {
      task.progress?.(data.fraction)
      return
    }
    here.task = null
    task.settle(
      data.is === 'answer'
        ? { is: 'answer', value: data.value }
        : { is: 'problems', messages: data.problems.map((problem) => problem.message) },
    )
    next()
  }
  here.worker.onerror = () => {
    const { task } = here
    here.task = null
    task?.settle({ is: 'problems', messages: [waveformStrings.noWorker] })
    next()
  }
}

const next = (): void => {
  while (queue.length > 0) {
    let free = seats.find((here) => here.task === null)
    if (free === undefined && seats.length < mostWorkers) {
      free = seat(newWorker())
      seats.push(free)
    }
    if (free === undefined) return
    const task = queue.shift()!
    free.task = task
    free.worker.postMessage(task.request)
  }
}

let warmed = false

/** Starts the workers and lets them compile what a proof needs, once. */
export function warmUp(supply: Supply): void {
  if (warmed) return
  warmed = true
  for (let worker = 0; worker < mostWorkers; worker++) ask(supply, { kind: 'warm' })
}

/** Asks a worker; questions wait in a row, `first` goes before those that wait. */
export function ask<K extends Job['kind']>(
  supply: Supply,
  job: Extract<Job, { kind: K }>,
  options: { readonly progress?: (fraction: number) => void; readonly first?: boolean } = {},
): Asked<K> {
  lastId += 1
  const request: Request = { id: lastId, supply, job }
  let settle!: Task['settle']
  const answer = new Promise<Outcome<Answers[K]>>((done) => {
    settle = done as Task['settle']
  })
  const task: Task = { request, settle, progress: options.progress }
  queue = options.first ? [task, ...queue] : [...queue, task]
  next()
  return {
    answer,
    cancel: () => {
      if (queue.includes(task)) queue = queue.filter((waiting) => waiting !== task)
      const busy = seats.find((here) => here.task === task)
      if (busy) {
        busy.worker.terminate()
        busy.worker = newWorker()
        busy.task = null
        listen(busy)
      }
      settle({ is: 'cancelled' })
      next()
    },
  }
}
