import { mkdtempSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'

const root = fileURLToPath(new URL('../..', import.meta.url))

export type Bundle = { file: string; remove: () => void }

/** One source of this package as a script that Node runs by itself, for tests that need a process to start or kill. */
export async function bundle(source: string): Promise<Bundle> {
  const folder = mkdtempSync(join(root, 'node_modules', '.gapwright-test-'))
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: join(root, source),
      outDir: folder,
      target: 'node20',
      rollupOptions: { output: { entryFileNames: 'bundle.mjs' } },
    },
  })
  return { file: join(folder, 'bundle.mjs'), remove: () => rmSync(folder, { recursive: true, force: true }) }
}
