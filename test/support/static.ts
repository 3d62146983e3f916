import { execFile } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'

const root = fileURLToPath(new URL('../..', import.meta.url))
const types: Record<string, string> = { '.html': 'text/html', '.js': 'text/javascript' }

/** Folder of the static page, built when the sources changed; a process of its own, so that it is built for use. */
export async function staticFolder(): Promise<string> {
  const env = { ...process.env, NODE_ENV: 'production' }
  await promisify(execFile)(process.execPath, [join(root, 'scripts', 'build.mjs'), '--static'], { env })
  return join(root, 'dist', 'static')
}

export type PlainServer = { address: string; close: () => Promise<void> }

/** A web server that does no more than hand out the files of a folder. */
export async function plainServer(folder: string): Promise<PlainServer> {
  const server = createServer(async (request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname
    const name = path === '/' ? 'index.html' : path.slice(1)
    try {
      const content = await readFile(join(folder, name))
      response.writeHead(200, { 'Content-Type': types[extname(name)] ?? 'application/octet-stream' })
      response.end(content)
    } catch {
      response.writeHead(404).end()
    }
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}
