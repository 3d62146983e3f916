// `npm test`: installs, checks, builds, runs every test, and ends with `N passed, N failed`.
// Words after `npm test --` choose test files and skip the other checks.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { countTests } from './count-tests.mjs'
import { ensureInstalled } from './ensure-installed.mjs'

ensureInstalled()
const { runGates } = await import('./check.mjs')
const { buildIfChanged } = await import('./build.mjs')
const { runTool } = await import('./tool.mjs')

const chosen = process.argv.slice(2)
const gates = chosen.length === 0 ? await runGates() : { passed: 0, failed: 0 }
if (chosen.length > 0) await buildIfChanged().catch((error) => console.error(error.message))

const folder = mkdtempSync(join(tmpdir(), 'gapwright-test-'))
const reportFile = join(folder, 'report.json')
const run = await runTool(
  'vitest',
  ['run', ...chosen, '--reporter=default', '--reporter=json', `--outputFile.json=${reportFile}`],
  { show: true, env: { CI: process.env.CI ?? '1' } },
)
const tests = countTests(readReport(), run.ok)
rmSync(folder, { recursive: true, force: true })

const passed = gates.passed + tests.passed
const failed = gates.failed + tests.failed
console.log(`${passed} passed, ${failed} failed`)
process.exitCode = failed === 0 ? 0 : 1

function readReport() {
  try {
    return JSON.parse(readFileSync(reportFile, 'utf8'))
  } catch {
    return null
  }
}
