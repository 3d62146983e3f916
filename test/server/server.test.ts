import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises'
import { createServer, type Server } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { drawerText, largestFile_B, supplyText } from '../../src/engine/file/file.ts'
import { startServer } from '../../src/server/server.ts'
import { rawRequest } from '../support/http.ts'
import { sampleDrawer, sampleSupply } from '../support/sample.ts'
import { startTestServer, type TestServer } from '../support/server.ts'

let page: string
let server: TestServer

beforeAll(async () => {
  page = await mkdtemp(join(tmpdir(), 'gapwright-page-'))
  await writeFile(join(page, 'index.html'), '<!doctype html><title>page</title>')
  await mkdir(join(page, 'assets'))
  await writeFile(join(page, 'assets', 'main-abc.js'), '1')
  server = await startTestServer({ page })
})

afterAll(async () => {
  await server.stop()
  await rm(page, { recursive: true })
})

const json = { 'Content-Type': 'application/json' }
const ask = (method: string, path: string, headers: Record<string, string> = {}, body?: string) =>
  rawRequest(server.port, method, path, headers, body)
const create = (id: string, name = id) =>
  ask('PUT', `/api/supplies/${id}`, { ...json, 'If-None-Match': '*' }, supplyText(sampleSupply(id, name)))
const replace = (id: string, tag: string, name: string) =>
  ask('PUT', `/api/supplies/${id}`, { ...json, 'If-Match': `"${tag}"` }, supplyText(sampleSupply(id, name)))
const onDisk = (name: string) => join(server.folder, name)

describe('the bench folder over HTTP', () => {
  it('tells what it is', async () => {
    const about = await ask('GET', '/api/about')
    expect(about.body).toEqual({ name: 'gapwright', version: '0.0.0-test', folder: server.folder })
  })

  it('makes, reads, replaces and deletes a supply', async () => {
    const made = await create('wall', 'Wall')
    expect(made.status).toBe(201)
    expect(made.headers.etag).toBe(`"${made.body.tag}"`)
    expect(await readFile(onDisk('wall.supply.json'), 'utf8')).toBe(supplyText(sampleSupply('wall', 'Wall')))

    const read = await ask('GET', '/api/supplies/wall')
    expect(read.body).toEqual({
      tag: made.body.tag,
      supply: sampleSupply('wall', 'Wall'),
      migratedFrom: null,
    })

    const replaced = await replace('wall', made.body.tag, 'Wall two')
    expect(replaced.status).toBe(200)
    expect(replaced.body.tag).not.toBe(made.body.tag)
    const previous = await ask('GET', '/api/supplies/wall/previous')
    expect(previous.body.supply.name).toBe('Wall')

    const stale = await ask('DELETE', '/api/supplies/wall', { 'If-Match': `"${made.body.tag}"` })
    expect(stale.status).toBe(409)
    const deleted = await ask('DELETE', '/api/supplies/wall', { 'If-Match': `"${replaced.body.tag}"` })
    expect(deleted.body).toEqual({ kept: 'wall.supply.json' })
    expect((await ask('GET', '/api/supplies/wall')).status).toBe(404)
    expect(await readFile(onDisk('.deleted/wall.supply.json'), 'utf8')).toContain('Wall two')
  })

  it('keeps every deleted file of one name', async () => {
    for (const kept of ['twice.supply.json', 'twice.2.supply.json', 'twice.3.supply.json']) {
      const { body } = await create('twice')
      const deleted = await ask('DELETE', '/api/supplies/twice', { 'If-Match': `"${body.tag}"` })
      expect(deleted.body.kept).toBe(kept)
    }
  })

  it('does not overwrite what another tab saved', async () => {
    const { body: first } = await create('shared')
    const { body: second } = await replace('shared', first.tag, 'by the first tab')
    const refused = await replace('shared', first.tag, 'by the second tab')
    expect(refused.status).toBe(409)
    expect(refused.body.error).toMatchObject({ code: 'conflict', presentTag: second.tag })
    expect((await ask('GET', '/api/supplies/shared')).body.supply.name).toBe('by the first tab')
  })

  it('lets one of many simultaneous saves win, and tells the others', async () => {
    const { body } = await create('race')
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, i) => replace('race', body.tag, `tab ${i}`)),
    )
    expect(answers.filter((a) => a.status === 200)).toHaveLength(1)
    expect(answers.filter((a) => a.status === 409)).toHaveLength(19)
  })

  it('does not overwrite what an editor changed on disk', async () => {
    const { body } = await create('edited')
    await writeFile(onDisk('edited.supply.json'), supplyText(sampleSupply('edited', 'by hand')))
    expect((await replace('edited', body.tag, 'by the page')).status).toBe(409)
    expect(await readFile(onDisk('edited.supply.json'), 'utf8')).toContain('by hand')
  })

  it('does not make again what somebody deleted, and does not make over what is there', async () => {
    const { body } = await create('gone')
    await rm(onDisk('gone.supply.json'))
    const missing = await replace('gone', body.tag, 'again')
    expect(missing.status).toBe(409)
    expect(missing.body.error.presentTag).toBeNull()
    await create('gone')
    expect((await create('gone')).status).toBe(409)
  })

  it('wants to know what a save replaces', async () => {
    const bare = await ask('PUT', '/api/supplies/bare', json, supplyText(sampleSupply('bare')))
    expect(bare.status).toBe(428)
    expect((await ask('DELETE', '/api/supplies/bare')).status).toBe(428)
    const star = await ask(
      'PUT',
      '/api/supplies/bare',
      { ...json, 'If-Match': '*' },
      supplyText(sampleSupply('bare')),
    )
    expect(star.status).toBe(428)
  })

  it('refuses what is not valid with paths and sentences, and writes nothing', async () => {
    const bad = { ...sampleSupply('bad'), build: { ...sampleSupply().build, bulkCount: 0 } }
    const answer = await ask(
      'PUT',
      '/api/supplies/bad',
      { ...json, 'If-None-Match': '*' },
      JSON.stringify(bad),
    )
    expect(answer.status).toBe(422)
    expect(answer.body.error.problems).toEqual([
      { path: 'build.bulkCount', message: '0 is under 1', value: '0' },
    ])
    expect(await readdir(server.folder)).not.toContain('bad.supply.json')
  })

  it('refuses a supply under the address of another', async () => {
    const text = supplyText(sampleSupply('one'))
    const answer = await ask('PUT', '/api/supplies/two', { ...json, 'If-None-Match': '*' }, text)
    expect(answer.status).toBe(400)
  })

  it('lists what can be opened by name, and tells what cannot and why', async () => {
    await create('b-list', 'Aardvark')
    await writeFile(onDisk('cut.supply.json'), supplyText(sampleSupply('cut')).slice(0, 500))
    await writeFile(onDisk('My Copy.supply.json'), supplyText(sampleSupply('x')))
    const { body } = await ask('GET', '/api/supplies')
    expect(body.supplies[0]).toMatchObject({ id: 'b-list', name: 'Aardvark' })
    const why = Object.fromEntries(body.unreadable.map((u: any) => [u.file, u.problems[0].message]))
    expect(why['cut.supply.json']).toMatch(/^line \d+, column \d+: .*the text ends/)
    expect(why['My Copy.supply.json']).toContain('rename the file')
    expect((await ask('GET', '/api/supplies/cut')).status).toBe(422)
  })

  it('takes a file that was copied by hand for a supply of its own', async () => {
    await create('original', 'Original')
    await writeFile(onDisk('copy.supply.json'), await readFile(onDisk('original.supply.json')))
    expect((await ask('GET', '/api/supplies/copy')).body.supply.id).toBe('copy')
  })

  it('reads and saves the drawer in the same way', async () => {
    const starter = await ask('GET', '/api/drawer')
    expect(starter.body.drawer.entries.length).toBeGreaterThan(100)
    const text = drawerText(sampleDrawer())
    const again = await ask('PUT', '/api/drawer', { ...json, 'If-None-Match': '*' }, text)
    expect(again.status).toBe(409)
    const ifStarter = { ...json, 'If-Match': `"${starter.body.tag}"` }
    const made = await ask('PUT', '/api/drawer', ifStarter, text)
    expect(made.status).toBe(200)
    expect((await ask('PUT', '/api/drawer', ifStarter, text)).status).toBe(409)
    const read = await ask('GET', '/api/drawer')
    expect(read.body).toEqual({ tag: made.body.tag, drawer: sampleDrawer(), migratedFrom: null })
    expect((await ask('GET', '/api/supplies')).body.drawerTag).toBe(made.body.tag)
    const bad = await ask('PUT', '/api/drawer', { ...json, 'If-Match': `"${made.body.tag}"` }, '{}')
    expect(bad.status).toBe(422)
    await rm(onDisk('drawer.json'))
    expect((await ask('GET', '/api/drawer')).status).toBe(404)
  })
})

describe('what the server refuses', () => {
  it.each(['gapwright.example', '127.0.0.1:1', 'localhost', 'localhost.example:80', '127.0.0.1.example', ''])(
    'the host %j, as a hostile name that points here would send',
    async (host) => {
      const answer = await ask('GET', '/api/supplies', { Host: host })
      expect(answer.status).toBe(403)
    },
  )

  it.each(['http://elsewhere.example', 'null', 'http://127.0.0.1:1', 'https://127.0.0.1'])(
    'the origin %s',
    async (origin) => {
      const answer = await ask(
        'PUT',
        '/api/supplies/x',
        { ...json, Origin: origin, 'If-None-Match': '*' },
        '{}',
      )
      expect(answer.status).toBe(403)
      expect(answer.headers['access-control-allow-origin']).toBeUndefined()
    },
  )

  it('requests that a browser says come from another site, except opening the page', async () => {
    const cross = { 'Sec-Fetch-Site': 'cross-site', 'Sec-Fetch-Mode': 'no-cors' }
    expect((await ask('GET', '/api/supplies', cross)).status).toBe(403)
    const link = { 'Sec-Fetch-Site': 'cross-site', 'Sec-Fetch-Mode': 'navigate' }
    expect((await ask('GET', '/', link)).status).toBe(200)
  })

  it('its own page under each name of loopback', async () => {
    for (const host of [`127.0.0.1:${server.port}`, `localhost:${server.port}`, `[::1]:${server.port}`]) {
      const answer = await ask('GET', '/api/about', { Host: host, Origin: `http://${host}` })
      expect(answer.status).toBe(200)
    }
  })

  it.each([
    '/api/supplies/..%2f..%2fetc%2fpasswd',
    '/api/supplies/../../etc/passwd',
    '/api/supplies/%2e%2e',
    '/api/supplies/a%00b',
    '/api/supplies/A',
    '/api/supplies/.previous',
    '/api/supplies/a/../../x',
    '/api/supplies/a\\..\\b',
    '/api/nothing',
    '/api',
    '/../package.json',
    '/..%2f..%2fpackage.json',
    '/%2e%2e/package.json',
    '/.vite/manifest.json',
  ])('the path %s', async (path) => {
    expect((await ask('GET', path)).status).toBe(404)
  })

  it('files and folders that are links', async () => {
    const outside = join(page, 'outside.json')
    await writeFile(outside, supplyText(sampleSupply('link')))
    await symlink(outside, onDisk('link.supply.json'))
    const read = await ask('GET', '/api/supplies/link')
    expect(read.status).toBe(500)
    expect(read.body.error.message).toContain('link')
    const { body } = await ask('GET', '/api/supplies')
    expect(body.unreadable.map((u: any) => u.file)).toContain('link.supply.json')
    const before = await readFile(outside, 'utf8')
    await replace('link', '0'.repeat(32), 'through the link')
    expect(await readFile(outside, 'utf8')).toBe(before)

    const parent = await mkdtemp(join(tmpdir(), 'gapwright-linked-'))
    await symlink(page, join(parent, '.previous'))
    const options = { folder: parent, page, port: 0, version: '0', firstSupplies: () => [] }
    await expect(startServer(options)).rejects.toThrow('.previous')
    await rm(parent, { recursive: true })
  })

  it('methods that an address does not take', async () => {
    const posted = await ask('POST', '/api/supplies', json, '{}')
    expect(posted.status).toBe(405)
    expect(posted.headers.allow).toBe('GET')
    expect((await ask('DELETE', '/api/drawer')).status).toBe(405)
    expect((await ask('constructor', '/api/about')).status).toBe(400)
    expect((await ask('POST', '/')).status).toBe(405)
    expect((await ask('OPTIONS', '/api/supplies')).status).toBe(405)
  })

  it('bodies that are too large, declared or not, and bodies that are not JSON', async () => {
    const big = ' '.repeat(largestFile_B + 1)
    const headers = { ...json, 'If-None-Match': '*' }
    const declared = await ask(
      'PUT',
      '/api/supplies/big',
      { ...headers, 'Content-Length': '99999999999' },
      '',
    )
    expect(declared.status).toBe(413)
    const streamed = await ask(
      'PUT',
      '/api/supplies/big',
      { ...headers, 'Transfer-Encoding': 'chunked' },
      big,
    ).catch((error: NodeJS.ErrnoException) => ({ status: error.code }))
    expect([413, 'EPIPE', 'ECONNRESET']).toContain(streamed.status)
    const form = { 'Content-Type': 'text/plain', 'If-None-Match': '*' }
    expect((await ask('PUT', '/api/supplies/big', form, '{}')).status).toBe(415)
    expect((await ask('GET', '/api/about')).status).toBe(200)
  })
})

describe('the page', () => {
  it('comes with a strict content policy and other security headers', async () => {
    const answer = await ask('GET', '/')
    expect(answer.text).toContain('<title>page</title>')
    const policy = String(answer.headers['content-security-policy'])
    expect(policy).toContain("default-src 'none'")
    expect(policy).toContain("script-src 'self'")
    expect(policy).not.toMatch(/unsafe|\*|https?:/)
    expect(answer.headers['x-content-type-options']).toBe('nosniff')
    expect(answer.headers['cache-control']).toBe('no-cache')
    const script = await ask('GET', '/assets/main-abc.js')
    expect(script.headers['cache-control']).toContain('immutable')
    expect((await ask('GET', '/api/about')).headers['content-security-policy']).toBe(policy)
  })

  it('answers HEAD without a body', async () => {
    const answer = await ask('HEAD', '/api/about')
    expect(answer.status).toBe(200)
    expect(answer.text).toBe('')
  })
})

describe('starting', () => {
  const listening: Server[] = []
  afterAll(() => {
    for (const taken of listening) taken.close()
  })

  it('makes the folder, and lays first supplies and the starter drawer into it, once', async () => {
    const parent = await mkdtemp(join(tmpdir(), 'gapwright-first-'))
    const options = {
      folder: join(parent, 'deep', 'bench'),
      page,
      port: 0,
      version: '0',
      firstSupplies: () => [sampleSupply('first')],
    }
    const one = await startServer(options)
    expect((await readdir(one.folder)).sort()).toEqual([
      '.deleted',
      '.previous',
      'drawer.json',
      'first.supply.json',
    ])
    await rm(join(one.folder, 'first.supply.json'))
    await one.close()
    const two = await startServer(options)
    expect(await readdir(two.folder)).not.toContain('first.supply.json')
    await two.close()
    await rm(parent, { recursive: true })
  })

  it('takes another port when the wanted one is taken', async () => {
    const taken = createServer()
    listening.push(taken)
    const port = await new Promise<number>((resolve) =>
      taken.listen(0, '127.0.0.1', () => resolve((taken.address() as { port: number }).port)),
    )
    const parent = await mkdtemp(join(tmpdir(), 'gapwright-port-'))
    const moved = await startServer({ folder: parent, page, port, version: '0', firstSupplies: () => [] })
    expect(moved.portMoved).toBe(true)
    expect(moved.port).not.toBe(port)
    await moved.close()
    await rm(parent, { recursive: true })
  })
})
