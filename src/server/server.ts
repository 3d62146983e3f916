import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import sirv from 'sirv'
import { starterDrawer } from '../engine/parts/starter/index.ts'
import type { Supply } from '../engine/supply/supply.ts'
import { openBenchFolder } from './bench-folder.ts'
import { refusal, securityHeaders } from './guard.ts'
import { failure, send } from './reply.ts'
import { route } from './routes.ts'

export type ServerOptions = {
  /** The bench folder; made when it is not there. */
  folder: string
  /** Folder of the built page. */
  page: string
  /** Port wanted; 0 for any free one. */
  port: number
  version: string
  /** Supplies to lay into a folder that is new. */
  firstSupplies: () => readonly Supply[]
}

export type RunningServer = {
  /** Address of the page. */
  url: string
  port: number
  folder: string
  /** Id of the supply to open when the folder is new; null for a folder that was there. */
  firstSupply: string | null
  /** True when the wanted port was taken and another was used. */
  portMoved: boolean
  close: () => Promise<void>
}

/**
 * Starts the server on loopback: the page, and the bench folder under `/api`. A new folder gets the first supplies,
 * and a folder without a drawer gets the starter drawer.
 */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const folder = await openBenchFolder(options.folder)
  const first = folder.isNew ? options.firstSupplies() : []
  for (const supply of first) await folder.saveSupply(supply, 'nothing')
  if (!(await folder.hasDrawer())) await folder.saveDrawer(starterDrawer, 'nothing')

  const page = sirv(options.page, {
    etag: true,
    setHeaders: (response, path) => {
      const hashed = path.startsWith('/assets/')
      response.setHeader('Cache-Control', hashed ? 'max-age=31536000, immutable' : 'no-cache')
    },
  })

  const handle = async (request: IncomingMessage, response: ServerResponse) => {
    for (const [name, value] of Object.entries(securityHeaders)) response.setHeader(name, value)
    const withBody = request.method !== 'HEAD'
    const { port } = server.address() as AddressInfo
    const refused = refusal(request, port)
    if (refused !== null) return send(response, failure('forbidden', refused), withBody)
    if (request.url?.startsWith('/api/') || request.url === '/api')
      return send(response, await route({ folder, version: options.version, request }), withBody)
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      const reply = failure('method-not-allowed', 'the page takes GET', {}, { Allow: 'GET, HEAD' })
      return send(response, reply, withBody)
    }
    page(request, response, () => send(response, failure('not-found', 'there is nothing here'), withBody))
  }

  const server = createServer({ requestTimeout: 30_000 }, (request, response) => {
    handle(request, response).catch((error: unknown) => {
      console.error(error)
      if (response.headersSent) return response.destroy()
      send(response, failure('disk', 'the server met an error; see its window'), true)
    })
  })

  const portMoved = await listenOnLoopback(server, options.port)
  const { port } = server.address() as AddressInfo
  return {
    url: `http://127.0.0.1:${port}/`,
    port,
    folder: folder.path,
    firstSupply: first[0]?.id ?? null,
    portMoved,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}

/** Listens on the wanted port of 127.0.0.1, or on a free one when that is taken; true when it moved. */
async function listenOnLoopback(server: Server, wanted: number): Promise<boolean> {
  const listen = (port: number) =>
    new Promise<void>((resolve, reject) => {
      server.once('error', reject)
      server.listen({ port, host: '127.0.0.1', exclusive: true }, () => {
        server.off('error', reject)
        resolve()
      })
    })
  try {
    await listen(wanted)
    return false
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error
    await listen(0)
    return true
  }
}
