import { existsSync } from 'node:fs'
import { homedir } from 'node:os'
import { join, resolve } from 'node:path'
import { demoSupplies } from '../engine/demo/index.ts'
import { startServer } from '../server/server.ts'
import { type Command, exitCode, InputError } from './command.ts'
import { flags } from './flags.ts'
import { openBrowser, wantsBrowser } from './open-browser.ts'
import { packageRoot, version } from './package.ts'

const usualPort = 4785

const help = `gapwright page: serve the page on this machine and open it

  gapwright page [--folder <path>] [--port <number>] [--no-open]

Your supplies are plain files in the bench folder, one <id>.supply.json each, and your parts are in drawer.json.
The page saves as you work. The server answers on this machine only, to its own page only, and touches nothing
outside the bench folder. Stop it with Ctrl-C.

  --folder <path>   the bench folder; made when it is not there   (~/Gapwright)
  --port <number>   port to listen on; another free one is taken when it is in use   (${usualPort})
  --no-open         print the address, and leave the browser alone   (also: GAPWRIGHT_NO_OPEN=1)

Examples
  gapwright page
  gapwright page --folder ./club-supplies --no-open
`

export const pageCommand: Command = {
  name: 'page',
  summary: 'serve the page on this machine and open it',
  help,
  run: async (args, screen) => {
    const { values } = flags(args, {
      folder: { type: 'string' },
      port: { type: 'string' },
      'no-open': { type: 'boolean' },
    })
    const page = join(packageRoot(), 'dist', 'page')
    if (!existsSync(join(page, 'index.html')))
      throw new InputError('The page is not built yet; `npm run build` builds it.')
    const server = await startServer({
      folder: resolve(values.folder ?? join(homedir(), 'Gapwright')),
      page,
      port: portOf(values.port),
      version: version(),
      firstSupplies: demoSupplies,
    }).catch((error: unknown) => {
      throw new InputError(`The bench folder cannot be used: ${(error as Error).message}`)
    })
    if (server.portMoved) screen.out(`Port ${values.port ?? usualPort} is in use; taking ${server.port}.\n`)
    const address = server.firstSupply === null ? server.url : `${server.url}#/supply/${server.firstSupply}`
    screen.out(`Gapwright is at ${address}\nBench folder: ${server.folder}\nStop with Ctrl-C.\n`)
    if (!values['no-open'] && wantsBrowser(process.env, process.platform))
      openBrowser(address, process.platform)
    await stopAsked()
    await server.close()
    return exitCode.done
  },
}

function portOf(text: string | undefined): number {
  if (text === undefined) return usualPort
  const port = Number(text)
  if (!/^\d{1,5}$/.test(text) || port > 65535)
    throw new InputError(`--port ${text} is not a number from 0 to 65535`)
  return port
}

/** Settles when the person or the system asks the process to stop. */
const stopAsked = () =>
  new Promise<void>((resolve) => {
    process.once('SIGINT', () => resolve())
    process.once('SIGTERM', () => resolve())
  })
