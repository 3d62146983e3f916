// `npm run bench`: runs each bench/*.ts or *.mjs in a process of its own, one after the other, and shows its table.
// Words after `npm run bench --` choose files by part of their name.
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { cpus } from 'node:os'
import { join } from 'node:path'
import { ensureInstalled, root } from './ensure-installed.mjs'

ensureInstalled()
const { build } = await import('vite')
const { runNode } = await import('./tool.mjs')

const chosen = process.argv.slice(2)
const files = readdirSync(join(root, 'bench'))
  .filter((name) => /\.(ts|mjs)$/.test(name))
  .filter((name) => chosen.length === 0 || chosen.some((word) => name.includes(word)))
if (files.length === 0) {
  console.error('No benchmark by that name in bench/.')
  process.exit(1)
}
console.log(
  `Node ${process.versions.node}, ${cpus()[0]?.model ?? 'unknown processor'}, ${cpus().length} cores`,
)

/** Bundled inside the package, so that imports of installed packages still find them. */
const folder = mkdtempSync(join(root, 'node_modules', '.gapwright-bench-'))
let failed = 0
try {
  for (const file of files) {
    console.log(`\n${file}`)
    await build({
      root,
      configFile: false,
      logLevel: 'warn',
      build: {
        ssr: join(root, 'bench', file),
        outDir: folder,
        emptyOutDir: false,
        target: 'node20',
        rollupOptions: { output: { entryFileNames: '[name].mjs' } },
      },
    })
    const { ok } = await runNode([join(folder, file.replace(/\.\w+$/, '.mjs'))], { show: true })
    if (!ok) failed++
  }
} finally {
  rmSync(folder, { recursive: true, force: true })
}
process.exitCode = failed === 0 ? 0 : 1
