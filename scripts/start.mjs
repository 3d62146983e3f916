// `npm start`: installs and builds what is needed, then serves the page. Flags as for `gapwright page --help`.
import { ensureInstalled } from './ensure-installed.mjs'

ensureInstalled()
const { buildIfChanged } = await import('./build.mjs')
try {
  await buildIfChanged()
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exit(1)
}
const { runCommand } = await import('../dist/node/cli.js')
process.exitCode = await runCommand(['page', ...process.argv.slice(2)])
