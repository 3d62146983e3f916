// Everything that `npm test` checks before the tests run: format, lint, types, layers, dead code, build, size.
import { pathToFileURL } from 'node:url'
import { ensureInstalled } from './ensure-installed.mjs'

/** Runs every gate and prints each as it ends: `{ passed, failed }`, each gate counting as one. */
export async function runGates() {
  const { runTool } = await import('./tool.mjs')
  const { checkLayers } = await import('./check-layers.mjs')
  const { buildIfChanged, buildStaticIfChanged } = await import('./build.mjs')
  const { checkSize } = await import('./check-size.mjs')
  const types = (project) => runTool('tsc', ['-p', project, '--pretty', 'false'])
  const gates = [
    ['format and lint', () => runTool('biome', ['check', '--error-on-warnings', '--colors=off', '.'])],
    ['types of engine and drawings', () => types('tsconfig.engine.json')],
    ['types of the page', () => types('tsconfig.app.json')],
    ['types of server, command line and tests', () => types('tsconfig.node.json')],
    ['layer rules', async () => checkLayers()],
    ['dead code', () => runTool('knip', ['--no-progress'])],
    ['build', build],
    ['build of the static page', buildStatic],
    ['size of the initial script', async () => checkSize()],
  ]
  async function build() {
    await buildIfChanged({ whole: true })
    return { ok: true, output: '' }
  }
  async function buildStatic() {
    await buildStaticIfChanged()
    return { ok: true, output: '' }
  }
  const counts = { passed: 0, failed: 0 }
  for (const [name, gate] of gates) {
    const started = Date.now()
    const { ok, output } = await gate().catch((error) => ({
      ok: false,
      output: error?.stack ?? String(error),
    }))
    counts[ok ? 'passed' : 'failed']++
    const detail = ok && output.length > 0 && !output.trim().includes('\n') ? `: ${output.trim()}` : ''
    console.log(
      `${ok ? 'ok    ' : 'FAILED'} ${name}${detail} (${((Date.now() - started) / 1000).toFixed(1)} s)`,
    )
    if (!ok) console.log(output.trimEnd())
  }
  return counts
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  ensureInstalled()
  const { passed, failed } = await runGates()
  console.log(`${passed} passed, ${failed} failed`)
  process.exitCode = failed === 0 && passed > 0 ? 0 : 1
}
