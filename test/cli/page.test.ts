import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { openBrowser, wantsBrowser } from '../../src/cli/open-browser.ts'
import { type Bundle, bundle } from '../support/bundle.ts'
import { rawRequest } from '../support/http.ts'

let cli: Bundle
let work: string
let child: ChildProcess | null = null

beforeAll(async () => {
  cli = await bundle('test/support/cli-process.ts')
  work = await mkdtemp(join(tmpdir(), 'gapwright-cli-'))
})

afterEach(() => {
  child?.kill('SIGKILL')
  child = null
})

afterAll(async () => {
  cli.remove()
  await rm(work, { recursive: true, force: true })
})

/** Starts `gapwright page` and gives what it prints until it tells how to stop it. */
async function startPage(
  ...args: string[]
): Promise<{ text: string; port: number; ended: Promise<number | null> }> {
  const process_ = spawn(process.execPath, [cli.file, 'page', '--no-open', ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  child = process_
  const ended = new Promise<number | null>((resolve) => process_.once('exit', resolve))
  let text = ''
  await new Promise<void>((resolve, reject) => {
    const take = (chunk: Buffer) => {
      text += chunk
      if (text.includes('Ctrl-C')) resolve()
    }
    process_.stdout.on('data', take)
    process_.stderr.on('data', take)
    process_.once('exit', () => reject(new Error(`the page did not start:\n${text}`)))
  })
  return { text, port: Number(/:(\d+)\//.exec(text)?.[1]), ended }
}

describe('gapwright page', () => {
  it('prints the address, serves the built page, keeps the folder, and stops when asked', async () => {
    const folder = join(work, 'bench')
    const { text, port, ended } = await startPage('--folder', folder, '--port', '0')
    expect(text).toContain(`Gapwright is at http://127.0.0.1:${port}/`)
    expect(text).toContain(`Bench folder: ${folder}`)
    const page = await rawRequest(port, 'GET', '/')
    expect(page.status).toBe(200)
    expect(page.text).toContain('<script type="module"')
    expect(page.text).not.toMatch(/<script(?![^>]*\ssrc=)[^>]*>|<style|\son\w+=/i)
    expect((await rawRequest(port, 'GET', '/api/supplies')).status).toBe(200)
    expect(await readdir(folder)).toContain('.previous')
    child?.kill('SIGTERM')
    expect(await ended).toBe(0)
  })

  it('takes another port when the wanted one is in use, and says so', async () => {
    const taken = createServer()
    const port = await new Promise<number>((resolve) =>
      taken.listen(0, '127.0.0.1', () => resolve((taken.address() as { port: number }).port)),
    )
    const started = await startPage('--folder', join(work, 'other'), '--port', String(port))
    taken.close()
    expect(started.text).toContain(`Port ${port} is in use; taking ${started.port}.`)
    expect(started.port).not.toBe(port)
  })
})

describe('opening the browser', () => {
  it('is left alone without a person, a screen or the wish', () => {
    expect(wantsBrowser({ DISPLAY: ':0' }, 'linux')).toBe(true)
    expect(wantsBrowser({ WAYLAND_DISPLAY: 'wayland-0' }, 'linux')).toBe(true)
    expect(wantsBrowser({}, 'linux')).toBe(false)
    expect(wantsBrowser({}, 'darwin')).toBe(true)
    expect(wantsBrowser({}, 'win32')).toBe(true)
    expect(wantsBrowser({ CI: 'true', DISPLAY: ':0' }, 'linux')).toBe(false)
    expect(wantsBrowser({ GAPWRIGHT_NO_OPEN: '1' }, 'darwin')).toBe(false)
  })

  it('does no harm where the system has no way to open one', async () => {
    const path = process.env.PATH
    process.env.PATH = ''
    openBrowser('http://127.0.0.1:1/', 'linux')
    process.env.PATH = path
    await new Promise((resolve) => setTimeout(resolve, 50))
  })
})
