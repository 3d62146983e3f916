import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { readSupply, supplyText } from '../../src/engine/file/file.ts'
import { type Bundle, bundle } from '../support/bundle.ts'
import { rawRequest } from '../support/http.ts'
import { sampleSupply } from '../support/sample.ts'

const saves = 200

let work: string
let server: Bundle

beforeAll(async () => {
  work = await mkdtemp(join(tmpdir(), 'gapwright-kill-'))
  server = await bundle('test/support/server-process.ts')
})

afterAll(async () => {
  server.remove()
  await rm(work, { recursive: true, force: true })
})

/** Seeded, so that a failure can be run again (Lehmer's generator modulo 2^31 - 1). */
function randomNumbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}

async function startProcess(folder: string): Promise<{ child: ChildProcess; port: number }> {
  const child = spawn(process.execPath, [server.file, folder, work], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const port = await new Promise<number>((resolve, reject) => {
    child.stdout?.once('data', (line) => resolve(Number(line)))
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)))
  })
  return { child, port }
}

/** Every save carries its own number, and a note long enough that writing takes a while. */
const numbered = (n: number) => ({ ...sampleSupply('wall'), revision: `${n}`, note: `${n} `.repeat(4000) })
const numberIn = (bytes: Uint8Array): number => {
  const read = readSupply(bytes)
  if (!read.ok) throw new Error(read.problems[0]?.message)
  expect(read.value).toEqual(numbered(Number(read.value.revision)))
  return Number(read.value.revision)
}

it(`loses and damages nothing in ${saves} saves during which the server is killed at random`, async () => {
  const folder = join(work, 'bench')
  const random = randomNumbers(20)
  let running = await startProcess(folder)
  let kept = 0
  let tag: string | null = null
  let kills = 0
  let cutShort = 0

  for (let n = 1; n <= saves; n++) {
    const kill = random() < 0.3
    const condition: Record<string, string> =
      tag === null ? { 'If-None-Match': '*' } : { 'If-Match': `"${tag}"` }
    const headers = { 'Content-Type': 'application/json', ...condition }
    const answer = rawRequest(
      running.port,
      'PUT',
      '/api/supplies/wall',
      headers,
      supplyText(numbered(n)),
    ).catch(() => null)
    if (kill) {
      await pause(random() * 12)
      running.child.kill('SIGKILL')
      kills++
    }
    const saved = await answer
    if (saved === null) {
      cutShort++
      expect(kill).toBe(true)
    } else {
      expect(saved.status).toBe(tag === null ? 201 : 200)
    }

    const file = await readFile(join(folder, 'wall.supply.json')).catch(() => null)
    const found: number = file === null ? 0 : numberIn(file)
    expect(saved === null ? [kept, n] : [n]).toContain(found)
    const previous = await readFile(join(folder, '.previous', 'wall.supply.json')).catch(() => null)
    if (previous !== null) expect(numberIn(previous)).toBeLessThanOrEqual(found)
    kept = found

    if (kill) running = await startProcess(folder)
    if (kept > 0) {
      const present = await rawRequest(running.port, 'GET', '/api/supplies/wall')
      expect(present.status).toBe(200)
      tag = present.body.tag
    }
  }

  running.child.kill('SIGKILL')
  expect(kills).toBeGreaterThan(30)
  expect(cutShort).toBeGreaterThan(5)
  const left = (await readdir(folder)).filter((name) => name.endsWith('.json'))
  expect(left).toEqual(['drawer.json', 'wall.supply.json'])
})
