import type { SearchState } from '../../../engine/search/index.ts'
import type { Job, Replies, Reply, Request } from './messages.ts'

/** A question under way; after `cancel` nothing more comes. */
export interface Asked {
  readonly cancel: () => void
  /** Tells a search under way what others have found beside it. */
  readonly tell: (beside: SearchState['front']) => void
}

interface Seat {
  readonly worker: Worker
  busy: number | null
}

interface Task {
  readonly request: Request
  readonly part: (value: unknown) => void
  readonly done: (reply: Reply) => void
}

const seats: Seat[] = []
let waiting: Task[] = []
const running = new Map<number, Task>()
let lastId = 0

/** Workers for one search: all cores but no more than four, since each holds the parts of its own. */
export const workerCount = (): number => Math.max(1, Math.min(4, navigator.hardwareConcurrency || 2))

const newSeat = (): Seat => {
  const worker = new Worker(new URL('./answer-worker.ts', import.meta.url), { type: 'module' })
  const seat: Seat = { worker, busy: null }
  const ended = (reply: Reply) => {
    const task = running.get(reply.id)
    running.delete(reply.id)
    seat.busy = null
    task?.done(reply)
    next()
  }
  worker.onmessage = ({ data }: MessageEvent<Reply>) => {
    if (data.is === 'part') running.get(data.id)?.part(data.value)
    else ended(data)
  }
  worker.onerror = (event) => {
    if (seat.busy !== null) ended({ id: seat.busy, is: 'failed', value: event.message })
  }
  return seat
}

const next = (): void => {
  while (waiting.length > 0) {
    let seat = seats.find((s) => s.busy === null)
    if (!seat && seats.length < workerCount() + 1) {
      seat = newSeat()
      seats.push(seat)
    }
    if (!seat) return
    const task = waiting.shift()!
    seat.busy = task.request.id
    running.set(task.request.id, task)
    seat.worker.postMessage(task.request)
  }
}

/** Starts the workers before they are needed, so that the first answer need not wait for them. */
export const warmUp = (): void => {
  while (seats.length < workerCount()) seats.push(newSeat())
}

/** Asks a free worker. `part` is given answers so far; `done` the answer, `failed` a sentence. */
export function ask<K extends Job['kind']>(
  job: Extract<Job, { kind: K }>,
  on: {
    readonly part?: (value: unknown) => void
    readonly done: (value: Replies[K]) => void
    readonly failed: (message: string) => void
  },
): Asked {
  lastId += 1
  const id = lastId
  const task: Task = {
    request: { id, job },
    part: (value) => on.part?.(value),
    done: (reply) =>
      reply.is === 'answer' ? on.done(reply.value as Replies[K]) : on.failed(String(reply.value)),
  }
  waiting.push(task)
  next()
  const say = (request: Request) => seats.find((s) => s.busy === id)?.worker.postMessage(request)
  return {
    tell: (beside) => say({ id, beside }),
    cancel: () => {
      waiting = waiting.filter((t) => t !== task)
      if (!running.delete(id)) return
      const seat = seats.find((s) => s.busy === id)
      if (!seat) return
      // A search looks up between its steps and can be told; all else is one piece of work, and its worker goes.
      if (job.kind === 'search') say({ id, job: null })
      else {
        seat.worker.terminate()
        seats.splice(seats.indexOf(seat), 1)
      }
      next()
    },
  }
}
