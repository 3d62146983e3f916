// The search of the starter drawer for the needs of the demo: the answer in one thread and shared between two, the first
// answers, candidates decided one by one in closed form (what bounds let go in branches is counted apart), and range maps.
import { Worker } from 'node:worker_threads'
import { demoSupplies } from '../src/engine/demo/index.ts'
import { starterDrawer } from '../src/engine/parts/starter/index.ts'
import {
  alongside,
  beginSearch,
  chooseProved,
  mergeStates,
  rangeMap,
  type SearchState,
  type Space,
  searchAll,
  searchOptions,
  searchSpace,
  searchStep,
} from '../src/engine/search/index.ts'
import { copperCount, decideFrame } from '../src/engine/search/lean/decide.ts'
import { framesOf, groundOf } from '../src/engine/search/space/frames.ts'
import { benchOf } from '../src/engine/search/step.ts'
import type { Need } from '../src/engine/supply/need.ts'

const wanted = { first_ms: 300, answer_s: 3, range_s: 2, perSecond: 100_000 }
const threads = 2
const sayEvery_ms = 150

/** A worker is a string here, so that this file need not be found by a name of its own once it is bundled. */
const workerSource = (script: string): string => `
const { parentPort, receiveMessageOnPort } = require('node:worker_threads')
globalThis.gapwrightBenchWorker = true
import(${JSON.stringify(script)}).then(({ share }) => {
  const hear = () => receiveMessageOnPort(parentPort)?.message.beside ?? null
  parentPort.on('message', (job) => {
    if (job === null) process.exit(0)
    if (job.need) parentPort.postMessage(share(job, (part) => parentPort.postMessage({ part }), hear))
  })
  parentPort.postMessage({ ready: true })
})`

interface Job {
  readonly need: Need
  readonly share: number
  readonly of: number
}

const spaceFor = (need: Need): Space => {
  const made = searchSpace(need, starterDrawer, searchOptions('usual'))
  if (!made.ok) throw new Error(made.problems[0]!.message)
  return made.value
}

/** One share of a search, telling what it has found and hearing from the other, as the page's workers do. */
export function share(
  { need, share, of }: Job,
  say: (part: SearchState['front']) => void,
  hear: () => SearchState['front'] | null,
): SearchState {
  const space = spaceFor(need)
  let state = beginSearch(space, share, of)
  let said_ms = Number.NEGATIVE_INFINITY
  while (!state.done) {
    state = searchStep(space, state, 400)
    const now_ms = performance.now()
    if (state.front.length > 0 && now_ms - said_ms > sayEvery_ms) {
      said_ms = now_ms
      say(state.front)
    }
    const beside = hear()
    if (beside) state = alongside(state, beside)
  }
  return state
}

async function shared(workers: readonly Worker[], need: Need) {
  const from = performance.now()
  let first_ms = Number.NaN
  const states = await Promise.all(
    workers.map(
      (worker, index) =>
        new Promise<SearchState>((resolve) => {
          const listen = (message: SearchState | { part: SearchState['front'] }) => {
            if ('part' in message) {
              if (!(first_ms > 0)) first_ms = performance.now() - from
              for (const other of workers) if (other !== worker) other.postMessage({ beside: message.part })
              return
            }
            worker.off('message', listen)
            resolve(message)
          }
          worker.on('message', listen)
          worker.postMessage({ need, share: index, of: workers.length })
        }),
    ),
  )
  const state = mergeStates(states)
  return { state, first_ms, answer_s: (performance.now() - from) / 1000 }
}

/** Candidates decided one by one each second of processor time, where no answer spares any of them. */
function decidedPerSecond(space: Space): { decided: number; pruned: number; perSecond: number } {
  const bench = benchOf(space)
  const zeal = { all: false, outdone: () => false }
  let decided = 0
  let all = 0
  const from = process.cpuUsage()
  for (const block of space.blocks) {
    const ground = groundOf(space, block)
    if (ground === null) continue
    for (const frame of framesOf(space, ground)) {
      all += copperCount(frame)
      decided += decideFrame(
        bench,
        ground,
        frame,
        () => zeal,
        () => {},
      )
    }
  }
  const { user } = process.cpuUsage(from)
  return { decided, pruned: all - decided, perSecond: decided / (user / 1e6) }
}

async function measure(): Promise<void> {
  const workers = Array.from(
    { length: threads },
    () => new Worker(workerSource(import.meta.url), { eval: true }),
  )
  await Promise.all(workers.map((w) => new Promise((resolve) => w.once('message', resolve))))
  for (const { name, need } of demoSupplies()) {
    console.log(name)
    for (const round of ['cold', 'warm']) {
      const { state, first_ms, answer_s } = await shared(workers, need)
      const { pruned, decided, assessed } = state.counts
      console.log(
        `  ${round} on ${threads} threads  first answer ${first_ms.toFixed(0)} ms, all of it ${answer_s.toFixed(2)} s: ${state.front.length} answers from ${pruned + decided} candidates, ${pruned} of them let go in branches, ${assessed} assessed as a whole`,
      )
    }
    const space = spaceFor(need)
    const cpu = process.cpuUsage()
    const { front } = searchAll(space)
    console.log(`  one thread  ${(process.cpuUsage(cpu).user / 1e6).toFixed(2)} s of processor time`)
    const rate = decidedPerSecond(spaceFor(need))
    console.log(
      `  closed form ${Math.round(rate.perSecond)} candidates a second and core, ${rate.pruned} more let go by their frame`,
    )
    const from = performance.now()
    const { answers, refused } = chooseProved(space, front, 9)
    console.log(
      `  proof       ${answers.length} shown and ${refused.length} refused in ${((performance.now() - from) / 1000).toFixed(2)} s`,
    )
  }
  for (const supply of demoSupplies()) {
    const from = performance.now()
    rangeMap(supply, starterDrawer)
    console.log(`range map of ${supply.name}: ${((performance.now() - from) / 1000).toFixed(2)} s`)
  }
  for (const worker of workers) worker.postMessage(null)
  console.log(
    `wanted: first answers below ${wanted.first_ms} ms, the answer below ${wanted.answer_s} s on two cores, range map below ${wanted.range_s} s, ${wanted.perSecond} candidates a second and core`,
  )
}

if (!('gapwrightBenchWorker' in globalThis)) await measure()
