import type { IncomingMessage } from 'node:http'
import { largestFile_B, readDrawer, readSupply } from '../engine/file/file.ts'
import type { About, Deleted, Saved, StoredDrawer, StoredSupply } from './api-types.ts'
import { type BenchFolder, DiskError, type Expected, type SaveResult, type Stored } from './bench-folder.ts'
import { answer, failure, type Reply, readBody } from './reply.ts'

type Context = { folder: BenchFolder; version: string; request: IncomingMessage }
type Handler = (context: Context, id: string) => Promise<Reply>
type Route = { pattern: RegExp; methods: Record<string, Handler> }

const routes: Route[] = [
  { pattern: /^\/api\/about$/, methods: { GET: getAbout } },
  { pattern: /^\/api\/supplies$/, methods: { GET: async ({ folder }) => answer(await folder.list()) } },
  {
    pattern: /^\/api\/supplies\/([a-z0-9][a-z0-9-]{0,63})$/,
    methods: { GET: getSupply, PUT: putSupply, DELETE: deleteSupply },
  },
  { pattern: /^\/api\/supplies\/([a-z0-9][a-z0-9-]{0,63})\/previous$/, methods: { GET: getPrevious } },
  { pattern: /^\/api\/drawer$/, methods: { GET: getDrawer, PUT: putDrawer } },
]

/** Answers one request under `/api`; see `api-types.ts` for the contract. */
export async function route(context: Context): Promise<Reply> {
  const path = (context.request.url ?? '').split('?')[0] ?? ''
  for (const { pattern, methods } of routes) {
    const match = pattern.exec(path)
    if (match === null) continue
    const method = context.request.method === 'HEAD' ? 'GET' : (context.request.method ?? '')
    const handler = Object.hasOwn(methods, method) ? methods[method] : undefined
    if (handler === undefined) {
      const allow = Object.keys(methods).join(', ')
      return failure('method-not-allowed', `this address takes ${allow}`, {}, { Allow: allow })
    }
    return handleDisk(() => handler(context, match[1] ?? ''))
  }
  return failure('not-found', 'there is nothing at this address')
}

async function handleDisk(task: () => Promise<Reply>): Promise<Reply> {
  try {
    return await task()
  } catch (error) {
    if (error instanceof DiskError) return failure('disk', error.message)
    const code = (error as NodeJS.ErrnoException).code
    if (code === undefined) throw error
    return failure('disk', `the bench folder cannot be used (${code}): ${(error as Error).message}`)
  }
}

async function getAbout({ folder, version }: Context): Promise<Reply> {
  const about: About = { name: 'gapwright', version, folder: folder.path }
  return answer(about)
}

async function getSupply({ folder }: Context, id: string): Promise<Reply> {
  return supplyReply(await folder.readSupply(id), id)
}

async function getPrevious({ folder }: Context, id: string): Promise<Reply> {
  return supplyReply(await folder.readPrevious(id), id)
}

function supplyReply(stored: Stored<StoredSupply['supply']>, id: string): Reply {
  if (stored === null) return failure('not-found', `there is no supply ${id} in the bench folder`)
  const { tag, content } = stored
  if (!content.ok)
    return failure('invalid', `${id} cannot be opened as it is`, { problems: content.problems })
  const body: StoredSupply = { tag, supply: content.value, migratedFrom: content.migratedFrom }
  return answer(body, tag)
}

async function getDrawer({ folder }: Context): Promise<Reply> {
  const stored = await folder.readDrawer()
  if (stored === null) return failure('not-found', 'the bench folder has no drawer yet')
  const { tag, content } = stored
  if (!content.ok)
    return failure('invalid', 'drawer.json cannot be opened as it is', { problems: content.problems })
  const body: StoredDrawer = { tag, drawer: content.value, migratedFrom: content.migratedFrom }
  return answer(body, tag)
}

async function putSupply({ folder, request }: Context, id: string): Promise<Reply> {
  const sent = await sentContent(request)
  if (!sent.ok) return sent.reply
  const read = readSupply(sent.bytes)
  if (!read.ok) return failure('invalid', 'this supply is not valid', { problems: read.problems })
  if (read.value.id !== id)
    return failure('bad-request', `the supply says id ${read.value.id}, and the address says ${id}`)
  return savedReply(await folder.saveSupply(read.value, sent.expected), sent.expected)
}

async function putDrawer({ folder, request }: Context): Promise<Reply> {
  const sent = await sentContent(request)
  if (!sent.ok) return sent.reply
  const read = readDrawer(sent.bytes)
  if (!read.ok) return failure('invalid', 'this drawer is not valid', { problems: read.problems })
  return savedReply(await folder.saveDrawer(read.value, sent.expected), sent.expected)
}

async function deleteSupply({ folder, request }: Context, id: string): Promise<Reply> {
  const expected = expectedOf(request)
  if (expected === null || expected === 'nothing')
    return failure('precondition-required', 'send If-Match with the tag of what is to be deleted')
  const result = await folder.deleteSupply(id, expected.tag)
  if (result.ok) return answer({ kept: result.kept } satisfies Deleted)
  if (result.presentTag === null) return failure('not-found', `there is no supply ${id} in the bench folder`)
  return conflict(result.presentTag)
}

type Sent = { ok: true; bytes: Buffer; expected: Expected } | { ok: false; reply: Reply }

async function sentContent(request: IncomingMessage): Promise<Sent> {
  const type = request.headers['content-type']?.split(';')[0]?.trim().toLowerCase()
  if (type !== 'application/json')
    return { ok: false, reply: failure('unsupported-type', 'send application/json') }
  const expected = expectedOf(request)
  if (expected === null) {
    const message = 'send If-Match with the tag that is replaced, or If-None-Match: * for a new file'
    return { ok: false, reply: failure('precondition-required', message) }
  }
  const bytes = await readBody(request, largestFile_B)
  if (bytes === null) {
    const message = `the body is over ${largestFile_B / 1024 / 1024} MiB`
    return { ok: false, reply: failure('too-large', message, {}, { Connection: 'close' }) }
  }
  return { ok: true, bytes, expected }
}

function expectedOf(request: IncomingMessage): Expected | null {
  if (request.headers['if-none-match'] === '*') return 'nothing'
  const tag = /^"([0-9a-f]{32})"$/.exec(request.headers['if-match'] ?? '')?.[1]
  return tag === undefined ? null : { tag }
}

function savedReply(result: SaveResult, expected: Expected): Reply {
  if (!result.ok) return conflict(result.presentTag)
  return answer({ tag: result.tag } satisfies Saved, result.tag, expected === 'nothing' ? 201 : 200)
}

function conflict(presentTag: string | null): Reply {
  const message =
    presentTag === null
      ? 'the file is no longer there; nothing was written'
      : 'the file was changed by somebody else meanwhile; nothing was overwritten'
  return failure('conflict', message, { presentTag })
}
