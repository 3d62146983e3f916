// One TypeScript source of this package as a script that Node runs.
import { mkdtempSync, rmSync } from 'node:fs'
import { basename, join } from 'node:path'
import { root } from './ensure-installed.mjs'

/** A folder inside the package, so that imports of installed packages still find them: `{ path, remove }`. */
export function scratchFolder(purpose) {
  const path = mkdtempSync(join(root, 'node_modules', `.gapwright-${purpose}-`))
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) }
}

/** Bundles a source into a folder; the path of the script. */
export async function bundleInto(folder, source) {
  const { build } = await import('vite')
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    build: {
      ssr: join(root, source),
      outDir: folder,
      emptyOutDir: false,
      target: 'node20',
      rollupOptions: { output: { entryFileNames: '[name].mjs' } },
    },
  })
  return join(folder, basename(source).replace(/\.\w+$/, '.mjs'))
}
