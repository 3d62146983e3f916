// `npm run bench`: runs each bench/*.ts or *.mjs in a process of its own, one after the other, and shows its table.
// Words after `npm run bench --` choose files by part of their name.
import { readdirSync } from 'node:fs'
import { cpus } from 'node:os'
import { join } from 'node:path'
import { bundleInto, scratchFolder } from './bundle.mjs'
import { ensureInstalled, root } from './ensure-installed.mjs'

ensureInstalled()
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

const scratch = scratchFolder('bench')
let failed = 0
try {
  for (const file of files) {
    console.log(`\n${file}`)
    const script = await bundleInto(scratch.path, join('bench', file))
    const { ok } = await runNode([script], { show: true })
    if (!ok) failed++
  }
} finally {
  scratch.remove()
}
process.exitCode = failed === 0 ? 0 : 1
