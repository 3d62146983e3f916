import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { drawerText } from '../../src/engine/file/file.ts'
import type { Drawer } from '../../src/engine/parts/part.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { type RunningServer, startServer } from '../../src/server/server.ts'

/** The built page; the browser tests need `npm run build` to have run, as `npm test` does. */
const builtPage = fileURLToPath(new URL('../../dist/page', import.meta.url))

export type TestServer = RunningServer & { stop: () => Promise<void> }

/** The real server on a free port over a bench folder of its own, which goes away with `stop`. */
export async function startTestServer(
  options: { page?: string; firstSupplies?: () => readonly Supply[]; drawer?: Drawer } = {},
): Promise<TestServer> {
  const parent = await mkdtemp(join(tmpdir(), 'gapwright-'))
  if (options.drawer) {
    await mkdir(join(parent, 'bench'))
    await writeFile(join(parent, 'bench', 'drawer.json'), drawerText(options.drawer))
  }
  const running = await startServer({
    folder: join(parent, 'bench'),
    page: options.page ?? builtPage,
    port: 0,
    version: '0.0.0-test',
    firstSupplies: options.firstSupplies ?? (() => []),
  })
  return {
    ...running,
    stop: async () => {
      await running.close()
      await rm(parent, { recursive: true, force: true })
    },
  }
}
